using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Reminders;

namespace RepairShop.Services.Invoices;

internal sealed class ReceiptConfiguration : IEntityTypeConfiguration<Receipt>
{
    public void Configure(EntityTypeBuilder<Receipt> builder)
    {
        builder.ToTable("receipts");
        builder.HasOne<Customer>().WithMany().HasForeignKey(row => row.CustomerId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Receipt>().WithMany().HasForeignKey(row => row.TakesBackId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<BankLine>().WithMany().HasForeignKey(row => row.BankLineId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Currency).HasMaxLength(3);
        builder.Property(row => row.Reference).HasMaxLength(200);
        builder.HasIndex(row => row.FormKey).IsUnique().HasDatabaseName("ux_receipts_form_key");
        builder.HasIndex(row => row.TakesBackId).IsUnique().HasDatabaseName("ux_receipts_taken_back_once");
        builder.ToTable(table => table.HasCheckConstraint("ck_receipts_amount", "amount <> 0 and (amount < 0) = (takes_back_id is not null) and method <> 'CustomerCredit'"));
    }
}

internal sealed class CustomerCreditConfiguration : IEntityTypeConfiguration<CustomerCredit>
{
    public void Configure(EntityTypeBuilder<CustomerCredit> builder)
    {
        builder.ToTable("customer_credits");
        builder.HasOne<Customer>().WithMany().HasForeignKey(row => row.CustomerId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Receipt>().WithMany().HasForeignKey(row => row.ReceiptId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Payment>().WithMany().HasForeignKey(row => row.PaymentId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<CustomerCredit>().WithMany().HasForeignKey(row => row.TakesBackId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Currency).HasMaxLength(3);
        builder.Property(row => row.Reference).HasMaxLength(200);
        builder.HasIndex(row => new { row.CustomerId, row.Currency }).IncludeProperties(row => row.Amount);
        builder.HasIndex(row => row.FormKey).IsUnique().HasDatabaseName("ux_customer_credits_form_key");
        builder.HasIndex(row => row.PaymentId).IsUnique().HasDatabaseName("ux_customer_credits_payment");
        builder.HasIndex(row => row.ReceiptId).IsUnique().HasDatabaseName("ux_customer_credits_receipt");
        builder.HasIndex(row => row.TakesBackId).IsUnique().HasDatabaseName("ux_customer_credits_taken_back_once");
        builder.HasOne<ReminderLetter>().WithMany().HasForeignKey(row => row.ReminderLetterId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(table => table.HasCheckConstraint("ck_customer_credits_fee", "(kind = 'Fee') = (reminder_letter_id is not null)"));
        builder.ToTable(table => table.HasCheckConstraint("ck_customer_credits_amount", "amount <> 0"));
        builder.ToTable(table => table.HasCheckConstraint(
            "ck_customer_credits_kind",
            "(kind = 'LeftOver') = (receipt_id is not null) and (kind = 'Invoice') = (payment_id is not null) and (kind in ('PaidBack', 'Fee')) = (form_key is not null)"));
    }
}

internal sealed class WriteOffConfiguration : IEntityTypeConfiguration<WriteOff>
{
    public void Configure(EntityTypeBuilder<WriteOff> builder)
    {
        builder.ToTable("write_offs");
        builder.HasOne<Invoice>().WithMany().HasForeignKey(row => row.InvoiceId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<WriteOff>().WithMany().HasForeignKey(row => row.TakesBackId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Reason).HasMaxLength(500);
        builder.HasIndex(row => row.FormKey).IsUnique().HasDatabaseName("ux_write_offs_form_key");
        builder.HasIndex(row => row.TakesBackId).IsUnique().HasDatabaseName("ux_write_offs_undone_once");
        builder.ToTable(table => table.HasCheckConstraint("ck_write_offs_amount", "amount <> 0 and (amount < 0) = (takes_back_id is not null)"));
    }
}
