using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Checks;

internal sealed class CheckResultConfiguration : IEntityTypeConfiguration<CheckResult>
{
    public void Configure(EntityTypeBuilder<CheckResult> builder)
    {
        builder.ToTable("check_results");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Name).HasMaxLength(120);
        builder.Property(row => row.Unit).HasMaxLength(20);
        builder.HasIndex(row => new { row.RepairId, row.Phase, row.Name }).IsUnique();
    }
}
