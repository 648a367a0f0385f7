using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Invoices;

internal sealed class InvoiceConfiguration : IEntityTypeConfiguration<Invoice>
{
    /// <summary>The sum of credit notes is never above the invoice.</summary>
    private const string CreditedCheck = "kind <> 'Invoice' or issued_at is null or credited <= gross + cash_rounding";

    /// <summary>Nothing is given up that is not owed, nor paid or credited after it was given up.</summary>
    private const string WrittenOffCheck = "written_off = 0 or (written_off > 0 and written_off <= gross + cash_rounding - credited - paid)";

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
        builder.HasIndex(row => row.CreditsId);
        builder.HasOne<TaxProfile>().WithMany().HasForeignKey(row => row.TaxProfileId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Treatment).HasDefaultValue(TaxTreatment.Charged);
        builder.Property(row => row.TaxRounding).HasDefaultValue(TaxRounding.PerRate);
        builder.ToTable(table => table.HasCheckConstraint("ck_invoices_credited", CreditedCheck));
        builder.ToTable(table => table.HasCheckConstraint("ck_invoices_written_off", WrittenOffCheck));
        builder.HasMany(row => row.Changes).WithOne().HasForeignKey(change => change.InvoiceId);
        builder.HasMany(row => row.Taxes).WithOne().HasForeignKey(tax => tax.InvoiceId);
        builder.Property(row => row.Paid).HasDefaultValue(0m).ValueGeneratedOnAddOrUpdate();
        builder.Property(row => row.Credited).HasDefaultValue(0m).ValueGeneratedOnAddOrUpdate();
        builder.Property(row => row.WrittenOff).HasDefaultValue(0m).ValueGeneratedOnAddOrUpdate();
        builder.Ignore(row => row.Balance);
        builder.Ignore(row => row.Payable);
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
        builder.Property(row => row.TaxCategory).HasDefaultValue(TaxCategory.Standard);
        builder.Property(row => row.ChangePercent).HasPrecision(9, 4);
        builder.HasOne<Invoice>().WithMany().HasForeignKey(row => row.DepositId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<InvoiceLine>().WithMany().HasForeignKey(row => row.CreditsLineId).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class InvoiceChangeConfiguration : IEntityTypeConfiguration<InvoiceChange>
{
    public void Configure(EntityTypeBuilder<InvoiceChange> builder)
    {
        builder.ToTable("invoice_changes");
        builder.Property(row => row.Text).HasMaxLength(200);
        builder.Property(row => row.Percent).HasPrecision(9, 4);
    }
}

internal sealed class InvoiceTaxConfiguration : IEntityTypeConfiguration<InvoiceTax>
{
    public void Configure(EntityTypeBuilder<InvoiceTax> builder)
    {
        builder.ToTable("invoice_taxes");
        builder.Property(row => row.Name).HasMaxLength(60);
        builder.Property(row => row.Percent).HasPrecision(7, 4);
        builder.Property(row => row.Reason).HasMaxLength(500);
        builder.Ignore(row => row.Key);
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
        builder.HasOne<Receipt>().WithMany().HasForeignKey(row => row.ReceiptId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(row => row.FormKey).IsUnique().HasDatabaseName("ux_payments_form_key");
        builder.HasIndex(row => row.TakesBackId).IsUnique().HasDatabaseName("ux_payments_taken_back_once");
        builder.ToTable(table => table.HasCheckConstraint("ck_payments_amount", "amount <> 0"));
    }
}
