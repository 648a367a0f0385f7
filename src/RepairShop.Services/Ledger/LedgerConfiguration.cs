using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Parts;

namespace RepairShop.Services.Ledger;

internal sealed class JournalEntryConfiguration : IEntityTypeConfiguration<JournalEntry>
{
    public void Configure(EntityTypeBuilder<JournalEntry> builder)
    {
        builder.ToTable("journal_entries");
        builder.Property(row => row.Number).UseIdentityAlwaysColumn();
        builder.Property(row => row.Currency).HasMaxLength(3);
        builder.HasOne<Invoice>().WithMany().HasForeignKey(row => row.InvoiceId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Payment>().WithMany().HasForeignKey(row => row.PaymentId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<StockMovement>().WithMany().HasForeignKey(row => row.MovementId).OnDelete(DeleteBehavior.Restrict);
        builder.HasMany(row => row.Lines).WithOne()
            .HasForeignKey(line => new { line.EntryId, line.Date, line.Currency }).HasPrincipalKey(row => new { row.Id, row.Date, row.Currency })
            .OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(row => new { row.Date, row.Number });
        builder.HasIndex(row => row.Number).IsUnique();
        // One thing is written down once.
        builder.HasIndex(row => row.InvoiceId).IsUnique().HasFilter("payment_id is null").HasDatabaseName("ux_journal_invoice");
        builder.HasIndex(row => row.PaymentId).IsUnique().HasDatabaseName("ux_journal_payment");
        builder.HasIndex(row => row.MovementId).IsUnique().HasDatabaseName("ux_journal_movement");
        builder.ToTable(table => table.HasCheckConstraint(
            "ck_journal_entries_paper", "(movement_id is null) <> (invoice_id is null) and (payment_id is null or invoice_id is not null)"));
    }
}

internal sealed class JournalLineConfiguration : IEntityTypeConfiguration<JournalLine>
{
    public void Configure(EntityTypeBuilder<JournalLine> builder)
    {
        builder.ToTable("journal_lines");
        builder.Property(row => row.TaxName).HasMaxLength(60);
        builder.Property(row => row.TaxPercent).HasPrecision(7, 4);
        builder.Property(row => row.Currency).HasMaxLength(3);
        // Figures and balances read this index alone.
        builder.HasIndex(row => new { row.Account, row.Date }).IncludeProperties(row => new { row.Amount, row.Currency, row.TaxName, row.TaxPercent });
        builder.HasIndex(row => row.EntryId);
        builder.ToTable(table => table.HasCheckConstraint("ck_journal_lines_amount", "amount <> 0"));
    }
}

internal sealed class ClosedMonthConfiguration : IEntityTypeConfiguration<ClosedMonth>
{
    public void Configure(EntityTypeBuilder<ClosedMonth> builder)
    {
        builder.ToTable("closed_months");
        builder.HasKey(row => row.Month);
        builder.ToTable(table => table.HasCheckConstraint("ck_closed_months_first_day", "extract(day from month) = 1"));
    }
}

internal sealed class AccountNameConfiguration : IEntityTypeConfiguration<AccountName>
{
    public void Configure(EntityTypeBuilder<AccountName> builder)
    {
        builder.ToTable("account_names");
        builder.HasKey(row => row.Account);
        builder.Property(row => row.Number).HasMaxLength(20);
        builder.Property(row => row.Name).HasMaxLength(80);
    }
}

internal sealed class StockLayerConfiguration : IEntityTypeConfiguration<StockLayer>
{
    public void Configure(EntityTypeBuilder<StockLayer> builder)
    {
        builder.ToTable("stock_layers");
        builder.HasKey(row => row.MovementId);
        builder.HasOne<StockMovement>().WithMany().HasForeignKey(row => row.MovementId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Part>().WithMany().HasForeignKey(row => row.PartId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(row => new { row.PartId, row.At, row.MovementId }).HasFilter("left_quantity > 0").HasDatabaseName("ix_stock_layers_left");
        builder.ToTable(table => table.HasCheckConstraint("ck_stock_layers_left", "left_quantity >= 0 and left_quantity <= quantity and (left_quantity > 0 or left_value = 0)"));
    }
}

internal sealed class StockTakingConfiguration : IEntityTypeConfiguration<StockTaking>
{
    public void Configure(EntityTypeBuilder<StockTaking> builder)
    {
        builder.ToTable("stock_takings");
        builder.HasOne<StockMovement>().WithMany().HasForeignKey(row => row.MovementId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<StockLayer>().WithMany().HasForeignKey(row => row.LayerId).OnDelete(DeleteBehavior.Restrict);
    }
}
