using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Cameras;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.StripDown;

namespace RepairShop.Services.Repairs;

internal sealed class RepairConfiguration : IEntityTypeConfiguration<Repair>
{
    public void Configure(EntityTypeBuilder<Repair> builder)
    {
        builder.ToTable("repairs");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasIndex(row => row.Number).IsUnique();
        builder.HasIndex(row => row.BookedAt);
        builder.HasIndex(row => row.WantedBy).HasFilter("returned_at is null");
        builder.HasOne<Customer>().WithMany().HasForeignKey(row => row.CustomerId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Camera>().WithMany().HasForeignKey(row => row.CameraId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.WarrantyOfId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Number).HasMaxLength(60);
        builder.Property(row => row.ArrivalTracking).HasMaxLength(200);
        builder.Property(row => row.ConsentBy).HasMaxLength(200);
        builder.Property(row => row.Shelf).HasMaxLength(200);
        builder.Property(row => row.ReturnedTo).HasMaxLength(200);
        builder.Property(row => row.Carrier).HasMaxLength(200);
        builder.Property(row => row.ReturnTracking).HasMaxLength(200);
        builder.HasIndex(row => row.ReturnedAt);
        builder.Property<string>("SearchText").HasDefaultValue("").ValueGeneratedOnAddOrUpdate();
    }
}

internal sealed class RepairStageConfiguration : IEntityTypeConfiguration<RepairStage>
{
    public void Configure(EntityTypeBuilder<RepairStage> builder)
    {
        builder.ToView("repair_stages");
        builder.HasKey(row => row.RepairId);
    }
}

internal sealed class RepairPassConfiguration : IEntityTypeConfiguration<RepairPass>
{
    public void Configure(EntityTypeBuilder<RepairPass> builder)
    {
        builder.ToTable("repair_passes");
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(row => new { row.RepairId, row.Item }).IsUnique();
    }
}

internal sealed class PhotoConfiguration : IEntityTypeConfiguration<Photo>
{
    public void Configure(EntityTypeBuilder<Photo> builder)
    {
        builder.ToTable("photos");
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Finding>().WithMany().HasForeignKey(row => row.FindingId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<StripStep>().WithMany().HasForeignKey(row => row.StripStepId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(row => new { row.StripStepId, row.FileHash }).IsUnique().HasFilter("strip_step_id is not null");
        builder.Property(row => row.FileHash).HasMaxLength(64);
        builder.Property(row => row.ThumbnailHash).HasMaxLength(64);
        builder.Property(row => row.Caption).HasMaxLength(300);
    }
}
