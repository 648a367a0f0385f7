using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;

namespace RepairShop.Services.Cameras;

internal sealed class CameraConfiguration : IEntityTypeConfiguration<Camera>
{
    public void Configure(EntityTypeBuilder<Camera> builder)
    {
        builder.ToTable("cameras");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Customer>().WithMany().HasForeignKey(row => row.OwnerId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Maker).HasMaxLength(200);
        builder.Property(row => row.Model).HasMaxLength(200);
        builder.Property(row => row.Variant).HasMaxLength(200);
        builder.Property(row => row.Format).HasMaxLength(200);
        builder.Property(row => row.BodySerial).HasMaxLength(200);
        builder.Property(row => row.Lens).HasMaxLength(200);
        builder.Property(row => row.LensSerial).HasMaxLength(200);
        builder.Property(row => row.Shutter).HasMaxLength(200);
        builder.Property(row => row.ShutterSerial).HasMaxLength(200);
        builder.HasIndex(row => row.BodySerial);
        builder.Property<string>("SearchText").HasDefaultValue("").ValueGeneratedOnAddOrUpdate();
    }
}
