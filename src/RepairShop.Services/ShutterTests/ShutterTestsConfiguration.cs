using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
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
        builder.Property(row => row.RecordingHash).HasMaxLength(64);
        builder.Property(row => row.StruckOutReason).HasMaxLength(300);
    }
}
