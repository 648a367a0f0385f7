using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Invoices;

internal sealed class InvoiceConfiguration : IEntityTypeConfiguration<Invoice>
{
    public void Configure(EntityTypeBuilder<Invoice> builder)
    {
        builder.ToTable("invoices");
        builder.Property(row => row.Version).IsRowVersion();
        builder.HasOne<Repair>().WithMany().HasForeignKey(row => row.RepairId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Customer>().WithMany().HasForeignKey(row => row.CustomerId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Invoice>().WithMany().HasForeignKey(row => row.CreditsId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Number).HasMaxLength(60);
        builder.Property(row => row.Currency).HasMaxLength(3);
        builder.HasIndex(row => row.Number).IsUnique();
        builder.HasIndex(row => row.IssuedAt);
        builder.HasIndex(row => row.CreditsId).IsUnique().HasDatabaseName("ux_invoices_credited_once");
        builder.Property(row => row.Paid).HasDefaultValue(0m).ValueGeneratedOnAddOrUpdate();
        builder.Property(row => row.Credited).HasDefaultValue(0m).ValueGeneratedOnAddOrUpdate();
        builder.Ignore(row => row.Balance);
        builder.Property<string>("SearchText").HasDefaultValue("").ValueGeneratedOnAddOrUpdate();
        builder.HasMany(row => row.Lines).WithOne().HasForeignKey(line => line.InvoiceId);
    }
}

internal sealed class InvoiceLineConfiguration : IEntityTypeConfiguration<InvoiceLine>
{
    public void Configure(EntityTypeBuilder<InvoiceLine> builder)
    {
        builder.ToTable("invoice_lines");
        builder.Property(row => row.Text).HasMaxLength(500);
        builder.Property(row => row.Unit).HasMaxLength(20);
        builder.Property(row => row.TaxName).HasMaxLength(60);
        builder.Property(row => row.TaxPercent).HasPrecision(7, 4);
    }
}

internal sealed class PaymentConfiguration : IEntityTypeConfiguration<Payment>
{
    public void Configure(EntityTypeBuilder<Payment> builder)
    {
        builder.ToTable("payments");
        builder.HasOne<Invoice>().WithMany().HasForeignKey(row => row.InvoiceId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Payment>().WithMany().HasForeignKey(row => row.TakesBackId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Reference).HasMaxLength(200);
        builder.HasIndex(row => row.FormKey).IsUnique().HasDatabaseName("ux_payments_form_key");
        builder.HasIndex(row => row.TakesBackId).IsUnique().HasDatabaseName("ux_payments_taken_back_once");
        builder.ToTable(table => table.HasCheckConstraint("ck_payments_amount", "amount <> 0"));
    }
}
