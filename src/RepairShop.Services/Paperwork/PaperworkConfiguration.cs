using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Paperwork;

internal sealed class PaperConfiguration : IEntityTypeConfiguration<Paper>
{
    public void Configure(EntityTypeBuilder<Paper> builder)
    {
        builder.ToTable("papers");
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Estimate>().WithMany().HasForeignKey(row => row.EstimateId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Invoice>().WithMany().HasForeignKey(row => row.InvoiceId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Customer>().WithMany().HasForeignKey(row => row.CustomerId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(table => table.HasCheckConstraint("ck_papers_about", "(repair_id is null) <> (customer_id is null)"));
        builder.Property(row => row.Number).HasMaxLength(80);
        builder.Property(row => row.FileHash).HasMaxLength(64);
        builder.Property(row => row.EInvoiceHash).HasMaxLength(64).HasDefaultValue("");
        builder.Property(row => row.Facts).HasColumnType("jsonb");
    }
}
