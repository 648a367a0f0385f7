using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Ledger;
using RepairShop.Services.Database;

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
            await LoadAsync(db, invoice, cancel);
            Add(db, OfInvoice(invoice, await CreditedAsync(db, invoice, cancel)));
        }
        foreach (var payment in payments)
            Add(db, OfPayment(payment, await CurrencyAsync(db, payment.InvoiceId, cancel)));
    }

    public static bool HasSomethingToWrite(ShopDb db) => Find(db) is not { Issued: [], Payments: [] };

    /// <param name="invoice">Issued, with its lines, changes and taxes.</param>
    /// <param name="credited">The invoice a credit note takes back, with its lines; null for an invoice.</param>
    public static JournalEntry OfInvoice(Invoice invoice, Invoice? credited) => Entry(
        invoice.Kind == InvoiceKind.CreditNote ? JournalSource.CreditNote : JournalSource.Invoice,
        invoice.IssueDate!.Value, invoice.Currency, invoice.Id, null, invoice.IssuedAt!.Value, invoice.IssuedBy!.Value,
        Postings.OfInvoice(
            invoice.Kind, [.. Billed(invoice, credited)], invoice.TaxRegistered ? invoice.TaxTotals() : [], invoice.Net, invoice.Payable, Amount.Digits(invoice.Currency)));

    /// <summary>The invoices that credit notes among these take back, by their ids.</summary>
    public static async Task<Dictionary<Guid, Invoice>> CreditedAsync(ShopDb db, IEnumerable<Invoice> notes, CancellationToken cancel)
    {
        var ids = notes.Select(note => note.CreditsId).OfType<Guid>().ToList();
        return await db.Invoices.AsNoTracking().Include(row => row.Lines).Where(row => ids.Contains(row.Id)).ToDictionaryAsync(row => row.Id, cancel);
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

    private static IEnumerable<BilledLine> Billed(Invoice invoice, Invoice? credited)
    {
        var isDeposit = (credited ?? invoice).Basis == InvoiceBasis.Deposit;
        foreach (var (line, amount) in invoice.Lines.OrderBy(line => line.Position).Zip(invoice.Totals().LineAmounts))
        {
            if (isDeposit || line.DepositId is not null)
                yield return new BilledLine(LedgerAccount.Deposits, WithoutTax(invoice, line, amount), line.TaxName, line.TaxPercent);
            else if (credited is not null && line.CreditsLineId is null)
                foreach (var part in Spread(credited, line, amount))
                    yield return part;
            else
                yield return new BilledLine(Postings.AccountOf(line.Kind), amount, line.TaxName, line.TaxPercent);
        }
    }

    private static decimal WithoutTax(Invoice invoice, InvoiceLine line, decimal amount) => invoice.TaxRegistered && invoice.PricesIncludeTax
        ? Domain.Invoices.Totals.Round(amount / (1 + line.TaxPercent / 100), Amount.Digits(invoice.Currency))
        : amount;

    /// <summary>An amount that goes back and belongs to no line is taken from what the invoice billed at its rate, in proportion.</summary>
    private static IEnumerable<BilledLine> Spread(Invoice credited, InvoiceLine line, decimal amount)
    {
        var sums = credited.Lines.OrderBy(one => one.Position).Zip(credited.Totals().LineAmounts)
            .Where(one => one.First.DepositId is null && (one.First.TaxName, one.First.TaxPercent) == (line.TaxName, line.TaxPercent))
            .GroupBy(one => Postings.AccountOf(one.First.Kind), one => one.Second).Select(group => (Account: group.Key, Sum: group.Sum())).ToList();
        var whole = sums.Sum(part => part.Sum);
        return whole == 0
            ? [new BilledLine(LedgerAccount.RevenueOther, amount, line.TaxName, line.TaxPercent)]
            : sums.Select(part => new BilledLine(part.Account, amount * part.Sum / whole, line.TaxName, line.TaxPercent));
    }

    private static async Task LoadAsync(ShopDb db, Invoice invoice, CancellationToken cancel)
    {
        var entry = db.Entry(invoice);
        if (entry.State == EntityState.Added)
            return;
        foreach (var collection in entry.Collections.Where(collection => !collection.IsLoaded))
            await collection.LoadAsync(cancel);
    }

    private static async Task<Invoice?> CreditedAsync(ShopDb db, Invoice invoice, CancellationToken cancel) =>
        invoice.CreditsId is { } id ? (await CreditedAsync(db, [invoice], cancel))[id] : null;

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
