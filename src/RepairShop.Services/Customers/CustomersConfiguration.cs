using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Customers;

internal sealed class CustomerConfiguration : IEntityTypeConfiguration<Customer>
{
    public void Configure(EntityTypeBuilder<Customer> builder)
    {
        builder.ToTable("customers");
        builder.ComplexProperty(row => row.Address);
        builder.Property(row => row.Version).IsRowVersion();
        builder.Property(row => row.Name).HasMaxLength(200);
        builder.Property(row => row.Company).HasMaxLength(200);
        builder.Property(row => row.Email).HasMaxLength(200);
        builder.Property(row => row.Phone).HasMaxLength(200);
        builder.Property(row => row.TaxNumber).HasMaxLength(200);
        builder.HasOne<TaxProfile>().WithMany().HasForeignKey(row => row.TaxProfileId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(row => row.Email);
        builder.Property<string>("SearchText").HasDefaultValue("").ValueGeneratedOnAddOrUpdate();
    }
}
