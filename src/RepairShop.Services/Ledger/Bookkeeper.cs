using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Ledger;
using RepairShop.Services.Database;
using RepairShop.Services.Invoices;

namespace RepairShop.Services.Ledger;

/// <summary>Writes the journal beside whatever the context saves: an invoice or credit note as it is issued, money as it is
/// recorded. Nobody has to remember it, and it stands or falls with what it is about. Stock is written by the database itself.</summary>
internal static class Bookkeeper
{
    public static async Task RecordAsync(ShopDb db, CancellationToken cancel)
    {
        var (issued, payments) = Find(db);
        foreach (var invoice in issued)
        {
            if (!db.Entry(invoice).Collection(row => row.Lines).IsLoaded && db.Entry(invoice).State != EntityState.Added)
                await db.Entry(invoice).Collection(row => row.Lines).LoadAsync(cancel);
            Add(db, OfInvoice(invoice));
        }
        foreach (var payment in payments)
            Add(db, OfPayment(payment, await CurrencyAsync(db, payment.InvoiceId, cancel)));
    }

    public static bool HasSomethingToWrite(ShopDb db) => Find(db) is not { Issued: [], Payments: [] };

    /// <param name="invoice">Issued, with its lines.</param>
    public static JournalEntry OfInvoice(Invoice invoice)
    {
        var totals = InvoiceService.TotalsOf(invoice);
        var lines = invoice.Lines.OrderBy(line => line.Position).Zip(totals.LineAmounts, (line, amount) =>
            new BilledLine(Postings.AccountOf(line.Kind), amount, line.TaxName, line.TaxPercent));
        return Entry(
            invoice.Kind == InvoiceKind.CreditNote ? JournalSource.CreditNote : JournalSource.Invoice,
            invoice.IssueDate!.Value, invoice.Currency, invoice.Id, null, invoice.IssuedAt!.Value, invoice.IssuedBy!.Value,
            Postings.OfInvoice(invoice.Kind, [.. lines], totals.Taxes, invoice.Net, invoice.Gross, Amount.Digits(invoice.Currency)));
    }

    public static JournalEntry OfPayment(Payment payment, string currency) => Entry(
        JournalSource.Payment, payment.PaidOn, currency, payment.InvoiceId, payment.Id, payment.RecordedAt, payment.RecordedBy,
        Postings.OfPayment(payment.Amount, Postings.AccountOf(payment.Method)));

    /// <summary>A warranty repair billed at nothing leaves no entry.</summary>
    public static void Add(ShopDb db, JournalEntry entry)
    {
        if (entry.Lines.Count > 0)
            db.JournalEntries.Add(entry);
    }

    private static (List<Invoice> Issued, List<Payment> Payments) Find(ShopDb db)
    {
        db.ChangeTracker.DetectChanges();
        return (
            [.. db.ChangeTracker.Entries<Invoice>().Where(IsIssuedNow).Select(entry => entry.Entity)],
            [.. db.ChangeTracker.Entries<Payment>().Where(entry => entry.State == EntityState.Added).Select(entry => entry.Entity)]);
    }

    private static bool IsIssuedNow(EntityEntry<Invoice> entry) => entry.Entity.IssuedAt is not null && entry.State switch
    {
        EntityState.Added => true,
        EntityState.Modified => entry.Property(row => row.IssuedAt).OriginalValue is null,
        _ => false,
    };

    private static async Task<string> CurrencyAsync(ShopDb db, Guid invoiceId, CancellationToken cancel) =>
        db.Invoices.Local.FindEntry(invoiceId)?.Entity.Currency
        ?? await db.Invoices.Where(row => row.Id == invoiceId).Select(row => row.Currency).SingleAsync(cancel);

    private static JournalEntry Entry(
        JournalSource source, DateOnly date, string currency, Guid invoice, Guid? payment, DateTimeOffset at, Guid by, List<JournalLine> lines) => new()
        {
            Source = source,
            Date = date,
            Currency = currency,
            InvoiceId = invoice,
            PaymentId = payment,
            LineCount = lines.Count,
            PostedAt = at,
            PostedBy = by,
            Lines = lines,
        };
}
