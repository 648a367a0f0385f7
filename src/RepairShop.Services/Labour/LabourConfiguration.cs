using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Labour;

internal sealed class LabourEntryConfiguration : IEntityTypeConfiguration<LabourEntry>
{
    public void Configure(EntityTypeBuilder<LabourEntry> builder)
    {
        builder.ToTable("labour_entries");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Activity).HasMaxLength(200);
        builder.Ignore(row => row.IsRunning);
        builder.HasIndex(row => new { row.WorkerId, row.StartedAt });
        builder.HasIndex(row => row.WorkerId).IsUnique().HasDatabaseName("ux_labour_entries_one_clock")
            .HasFilter("started_at is not null and ended_at is null and removed_at is null");
        builder.ToTable(table => table.HasCheckConstraint("ck_labour_entries_minutes", "minutes is null or minutes >= 0"));
        builder.ToTable(table => table.HasCheckConstraint("ck_labour_entries_order", "ended_at is null or ended_at >= started_at"));
    }
}

internal sealed class LabourCorrectionConfiguration : IEntityTypeConfiguration<LabourCorrection>
{
    public void Configure(EntityTypeBuilder<LabourCorrection> builder)
    {
        builder.ToTable("labour_corrections");
        builder.HasOne<LabourEntry>().WithMany().HasForeignKey(row => row.EntryId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.OldActivity).HasMaxLength(200);
        builder.Property(row => row.Reason).HasMaxLength(500);
    }
}
