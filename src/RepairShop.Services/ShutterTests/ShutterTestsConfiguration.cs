using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.ShutterTests;

namespace RepairShop.Services.ShutterTests;

internal sealed class ShutterTestConfiguration : IEntityTypeConfiguration<ShutterTest>
{
    public void Configure(EntityTypeBuilder<ShutterTest> builder)
    {
        builder.ToTable("shutter_tests");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Instrument).HasMaxLength(200);
        builder.HasMany(row => row.Readings).WithOne().HasForeignKey(reading => reading.ShutterTestId);
    }
}

internal sealed class ReadingConfiguration : IEntityTypeConfiguration<Reading>
{
    public void Configure(EntityTypeBuilder<Reading> builder)
    {
        builder.ToTable("readings");
        builder.ToTable(table => table.HasCheckConstraint("ck_readings_seconds", "seconds > 0"));
        builder.Property(row => row.MarkedSpeed).HasMaxLength(40);
        builder.Property(row => row.Typed).HasMaxLength(40);
        builder.HasOne<KeptRecording>().WithMany().HasForeignKey(row => row.RecordingId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(row => new { row.RecordingId, row.Exposure }, "ix_readings_one_a_exposure").IsUnique()
            .HasFilter("recording_id is not null and struck_out_reason is null");
        builder.ToTable(table => table.HasCheckConstraint("ck_readings_recorded", "(recording_id is null) = (exposure is null)"));
        builder.Property(row => row.StruckOutReason).HasMaxLength(300);
    }
}
