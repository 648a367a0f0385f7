using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Findings;

internal sealed class FindingConfiguration : IEntityTypeConfiguration<Finding>
{
    public void Configure(EntityTypeBuilder<Finding> builder)
    {
        builder.ToTable("findings");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Component).HasMaxLength(200);
        builder.Property(row => row.GaugeName).HasMaxLength(200);
        builder.Property(row => row.GaugeUnit).HasMaxLength(20);
        builder.HasIndex(row => row.Component);
    }
}
