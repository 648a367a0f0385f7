using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.StripDown;

namespace RepairShop.Services.StripDown;

internal sealed class TrayConfiguration : IEntityTypeConfiguration<Tray>
{
    public const string OneName = "ix_strip_trays_repair_id_name";

    public void Configure(EntityTypeBuilder<Tray> builder)
    {
        builder.ToTable("strip_trays", table => table.HasCheckConstraint(
            "ck_strip_trays_size", $"rows between 1 and {Tray.MostRows} and columns between 1 and {Tray.MostColumns}"));
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Name).HasMaxLength(30);
        builder.HasIndex(row => new { row.RepairId, row.Name }).IsUnique().HasDatabaseName(OneName);
    }
}

internal sealed class StripStepConfiguration : IEntityTypeConfiguration<StripStep>
{
    public void Configure(EntityTypeBuilder<StripStep> builder)
    {
        builder.ToTable("strip_steps", table =>
        {
            table.HasCheckConstraint("ck_strip_steps_counts", "count >= 0 and shim_count >= 0");
            table.HasCheckConstraint("ck_strip_steps_cell", "(cell_row is null) = (cell_column is null) and (cell_row is null or tray_id is not null)");
        });
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Tray>().WithMany().HasForeignKey(row => row.TrayId).OnDelete(DeleteBehavior.Restrict);
        builder.HasMany(row => row.Items).WithOne().HasForeignKey(row => row.StepId).OnDelete(DeleteBehavior.Cascade);
        builder.Property(row => row.What).HasMaxLength(200);
        builder.Property(row => row.ShimPlace).HasMaxLength(200);
        builder.Property(row => row.Remember).HasConversion<int>();
        builder.Property(row => row.Before).HasColumnType("jsonb");
        builder.HasIndex(row => new { row.RepairId, row.Rank });
    }
}

internal sealed class StripItemConfiguration : IEntityTypeConfiguration<StripItem>
{
    public void Configure(EntityTypeBuilder<StripItem> builder)
    {
        builder.ToTable("strip_items", table =>
        {
            table.HasCheckConstraint("ck_strip_items_count", "count > 0");
            table.HasCheckConstraint("ck_strip_items_reason", "fate <> 'WrittenOff' or fate_note <> ''");
            table.HasCheckConstraint("ck_strip_items_replaced", "fate <> 'Replaced' or replaced_by <> ''");
        });
        // A lot split off in the domain carries its id already: without this the mapper would take it for one that is stored.
        builder.Property(row => row.Id).ValueGeneratedNever();
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Finding>().WithMany().HasForeignKey(row => row.FindingId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<PartUse>().WithMany().HasForeignKey(row => row.ReplacedByUseId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.CleanedHow).HasMaxLength(120);
        builder.Property(row => row.Lubricant).HasMaxLength(120);
        builder.Property(row => row.LubricatedWhere).HasMaxLength(200);
        builder.Property(row => row.ReplacedBy).HasMaxLength(500);
        builder.Property(row => row.FateNote).HasMaxLength(500);
        builder.HasIndex(row => row.RepairId).HasFilter("fate = 'StillOut'").HasDatabaseName("ix_strip_items_still_out");
    }
}

internal sealed class CleaningWayConfiguration : IEntityTypeConfiguration<CleaningWay>
{
    public const string OneName = "ix_cleaning_ways_name";

    public void Configure(EntityTypeBuilder<CleaningWay> builder)
    {
        builder.ToTable("cleaning_ways");
        builder.Property(row => row.Name).HasMaxLength(120);
        builder.Property(row => row.Cautions).HasConversion<int>();
        builder.HasIndex(row => row.Name).IsUnique().HasDatabaseName(OneName);
    }
}
