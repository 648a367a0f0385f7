using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Tools;

namespace RepairShop.Services.Tools;

internal sealed class ToolConfiguration : IEntityTypeConfiguration<Tool>
{
    public void Configure(EntityTypeBuilder<Tool> builder)
    {
        builder.ToTable("tools");
        builder.Property(row => row.Version).IsRowVersion();
        builder.Property(row => row.Name).HasMaxLength(200);
        builder.Property(row => row.Fits).HasMaxLength(1000);
        builder.Property(row => row.Place).HasMaxLength(200);
        builder.Property(row => row.OtherMeasures).HasMaxLength(1000);
        builder.Property(row => row.Notes).HasMaxLength(4000);
        builder.ComplexProperty(row => row.Spanner);
    }
}

internal sealed class MountConfiguration : IEntityTypeConfiguration<Mount>
{
    public void Configure(EntityTypeBuilder<Mount> builder)
    {
        builder.ToTable("mounts");
        builder.Property(row => row.Version).IsRowVersion();
        builder.Property(row => row.Camera).HasMaxLength(200);
        builder.Property(row => row.Name).HasMaxLength(200);
        builder.Property(row => row.Notes).HasMaxLength(4000);
        builder.ComplexProperty(row => row.Measures);
    }
}
