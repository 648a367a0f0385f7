using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Parts;

internal sealed class PartConfiguration : IEntityTypeConfiguration<Part>
{
    public void Configure(EntityTypeBuilder<Part> builder)
    {
        builder.ToTable("parts");
        builder.Property(row => row.Version).IsRowVersion();
        builder.Property(row => row.Number).HasMaxLength(60);
        builder.Property(row => row.Name).HasMaxLength(200);
        builder.Property(row => row.Place).HasMaxLength(200);
        builder.HasIndex(row => row.Number).IsUnique();
        builder.Property(row => row.OnHand).HasDefaultValue(0m).ValueGeneratedOnAddOrUpdate();
        builder.ToTable(table => table.HasCheckConstraint("ck_parts_on_hand", "on_hand >= 0"));
        builder.Property<string>("SearchText").HasDefaultValue("").ValueGeneratedOnAddOrUpdate();
    }
}

internal sealed class StockMovementConfiguration : IEntityTypeConfiguration<StockMovement>
{
    public void Configure(EntityTypeBuilder<StockMovement> builder)
    {
        builder.ToTable("stock_movements");
        builder.HasOne<Part>().WithMany().HasForeignKey(row => row.PartId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<PartUse>().WithMany().HasForeignKey(row => row.PartUseId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Note).HasMaxLength(500);
        builder.HasIndex(row => new { row.PartId, row.At });
    }
}

internal sealed class PartUseConfiguration : IEntityTypeConfiguration<PartUse>
{
    public void Configure(EntityTypeBuilder<PartUse> builder)
    {
        builder.ToTable("part_uses");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Part>().WithMany().HasForeignKey(row => row.PartId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Finding>().WithMany().HasForeignKey(row => row.FindingId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Text).HasMaxLength(500);
        builder.Property(row => row.Unit).HasMaxLength(20);
        builder.Property(row => row.TaxName).HasMaxLength(60);
        builder.Property(row => row.TaxPercent).HasPrecision(7, 4);
        builder.ToTable(table => table.HasCheckConstraint("ck_part_uses_quantity", "quantity > 0"));
    }
}
