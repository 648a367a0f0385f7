using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>What one customer owes and has, and what came and went.</summary>
/// <param name="Owed">Oldest first.</param>
/// <param name="Credits">One for each currency there is something in.</param>
/// <param name="History">Newest first, at most <see cref="CustomerMoneyService.MostEntries"/>.</param>
/// <param name="IsCut">There is more of it.</param>
public sealed record CustomerMoney(
    Guid Id, string Name, string Email, IReadOnlyList<OwedView> Owed, IReadOnlyList<CreditBalance> Credits, IReadOnlyList<MoneyEntry> History, bool IsCut);

/// <param name="DaysLate">0 where it is not due yet.</param>
public sealed record OwedView(
    Guid Id, string Number, string RepairNumber, DateOnly Issued, DateOnly? Due, string Currency, decimal Payable, decimal Owed, int DaysLate);

public sealed record CreditBalance(string Currency, decimal Amount);

public enum MoneyEntryKind
{
    Receipt,
    Payment,
    Credit,
    WriteOff,
}

/// <summary>One thing that happened to a customer's money.</summary>
/// <param name="Id">Of the receipt, payment, credit entry or write-off.</param>
/// <param name="Kept">What of a receipt became credit.</param>
/// <param name="IsTakeBack">It takes another back.</param>
/// <param name="IsTakenBack">Another takes it back.</param>
public sealed record MoneyEntry(
    MoneyEntryKind Kind, Guid Id, DateOnly On, DateTimeOffset At, decimal Amount, string Currency, PaymentMethod Method, string Reference,
    IReadOnlyList<EntryShare> Shares, decimal Kept, bool IsTakeBack, bool IsTakenBack)
{
    /// <summary>Of an entry that moved credit alone.</summary>
    public CreditKind? Credit { get; init; }
}

/// <param name="Number">Of the invoice.</param>
/// <param name="RepairNumber"></param>
/// <param name="Amount"></param>
public sealed record EntryShare(string Number, string RepairNumber, decimal Amount);

/// <summary>Reading a customer's money.</summary>
public sealed class CustomerMoneyService(ShopDb db, TimeProvider clock)
{
    public const int MostEntries = 100;

    public async Task<Result<CustomerMoney>> OfAsync(Guid id, CancellationToken cancel)
    {
        if (await db.Customers.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel) is not { } customer)
            return new CustomerNotFound();
        var today = (await db.Shop.AsNoTracking().SingleAsync(cancel)).Today(clock.GetUtcNow());
        var owed = await (
            from invoice in db.Invoices.AsNoTracking()
            join repair in db.Repairs on invoice.RepairId equals repair.Id
            where invoice.CustomerId == id && invoice.Kind == InvoiceKind.Invoice && invoice.IssuedAt != null
                && invoice.Gross + invoice.CashRounding - invoice.Credited - invoice.Paid - invoice.WrittenOff > 0
            select new { Invoice = invoice, repair.Number }).ToListAsync(cancel);
        var numbers = owed.ToDictionary(row => row.Invoice.Id);
        var inOrder = ReceiptRules.InOrder(owed.Select(row => new OwedInvoice(
            row.Invoice.Id, row.Invoice.DueDate, row.Invoice.IssueDate!.Value, row.Invoice.Number!, row.Invoice.Balance)));
        var credits = await db.CustomerCredits.Where(row => row.CustomerId == id).GroupBy(row => row.Currency)
            .Select(group => new { group.Key, Sum = group.Sum(row => row.Amount) }).Where(row => row.Sum != 0).OrderBy(row => row.Key).ToListAsync(cancel);
        var history = await HistoryAsync(id, cancel);
        return new CustomerMoney(
            id, customer.Name.Length > 0 ? customer.Name : customer.Company, customer.Email,
            [.. inOrder.Select(one => numbers[one.Id]).Select(row => new OwedView(
                row.Invoice.Id, row.Invoice.Number!, row.Number, row.Invoice.IssueDate!.Value, row.Invoice.DueDate, row.Invoice.Currency, row.Invoice.Payable,
                row.Invoice.Balance, row.Invoice.DueDate is { } due ? Math.Max(0, today.DayNumber - due.DayNumber) : 0))],
            [.. credits.Select(row => new CreditBalance(row.Key, row.Sum))],
            [.. history.Take(MostEntries)], history.Count > MostEntries);
    }

    private async Task<List<MoneyEntry>> HistoryAsync(Guid id, CancellationToken cancel)
    {
        var entries = new List<MoneyEntry>();
        entries.AddRange(await ReceiptsAsync(id, cancel));
        entries.AddRange(await PaymentsAsync(id, cancel));
        entries.AddRange(await CreditsAsync(id, cancel));
        entries.AddRange(await WriteOffsAsync(id, cancel));
        return [.. entries.OrderByDescending(entry => entry.At).ThenByDescending(entry => entry.Id)];
    }

    private async Task<IEnumerable<MoneyEntry>> ReceiptsAsync(Guid id, CancellationToken cancel)
    {
        var receipts = await db.Receipts.AsNoTracking().Where(row => row.CustomerId == id).OrderByDescending(row => row.RecordedAt).Take(MostEntries + 1).ToListAsync(cancel);
        var ids = receipts.Select(row => row.Id).ToList();
        var shares = (await (
            from payment in db.Payments
            join invoice in db.Invoices on payment.InvoiceId equals invoice.Id
            join repair in db.Repairs on invoice.RepairId equals repair.Id
            where payment.ReceiptId != null && ids.Contains(payment.ReceiptId.Value)
            orderby invoice.DueDate ?? invoice.IssueDate, invoice.IssueDate, invoice.Number // as it was shared out; ids made within one millisecond have no order
            select new { payment.ReceiptId, Share = new EntryShare(invoice.Number!, repair.Number, payment.Amount) }).ToListAsync(cancel)).ToLookup(row => row.ReceiptId!.Value, row => row.Share);
        var takenBack = await db.Receipts.Where(row => row.TakesBackId != null && ids.Contains(row.TakesBackId.Value)).Select(row => row.TakesBackId!.Value).ToListAsync(cancel);
        return receipts.Select(row => new MoneyEntry(
            MoneyEntryKind.Receipt, row.Id, row.PaidOn, row.RecordedAt, row.Amount, row.Currency, row.Method, row.Reference, [.. shares[row.Id]],
            row.Amount - shares[row.Id].Sum(share => share.Amount), row.TakesBackId is not null, takenBack.Contains(row.Id)));
    }

    private Task<List<MoneyEntry>> PaymentsAsync(Guid id, CancellationToken cancel) => (
        from payment in db.Payments
        join invoice in db.Invoices on payment.InvoiceId equals invoice.Id
        join repair in db.Repairs on invoice.RepairId equals repair.Id
        where invoice.CustomerId == id && payment.ReceiptId == null
        orderby payment.RecordedAt descending
        select new MoneyEntry(
            MoneyEntryKind.Payment, payment.Id, payment.PaidOn, payment.RecordedAt, payment.Amount, invoice.Currency, payment.Method, payment.Reference,
            new[] { new EntryShare(invoice.Number!, repair.Number, payment.Amount) }, 0, payment.TakesBackId != null, db.Payments.Any(other => other.TakesBackId == payment.Id)))
        .Take(MostEntries + 1).ToListAsync(cancel);

    private Task<List<MoneyEntry>> CreditsAsync(Guid id, CancellationToken cancel) => db.CustomerCredits
        .Where(row => row.CustomerId == id && (row.Kind == CreditKind.PaidBack || row.Kind == CreditKind.Fee)).OrderByDescending(row => row.RecordedAt)
        .Select(row => new MoneyEntry(
            MoneyEntryKind.Credit, row.Id, row.On, row.RecordedAt, row.Amount, row.Currency, row.Method, row.Reference, Array.Empty<EntryShare>(), 0,
            row.TakesBackId != null, db.CustomerCredits.Any(other => other.TakesBackId == row.Id))
        {
            Credit = row.Kind,
        })
        .Take(MostEntries + 1).ToListAsync(cancel);

    private Task<List<MoneyEntry>> WriteOffsAsync(Guid id, CancellationToken cancel) => (
        from writeOff in db.WriteOffs
        join invoice in db.Invoices on writeOff.InvoiceId equals invoice.Id
        join repair in db.Repairs on invoice.RepairId equals repair.Id
        where invoice.CustomerId == id
        orderby writeOff.RecordedAt descending
        select new MoneyEntry(
            MoneyEntryKind.WriteOff, writeOff.Id, writeOff.On, writeOff.RecordedAt, writeOff.Amount, invoice.Currency, PaymentMethod.Other, writeOff.Reason,
            new[] { new EntryShare(invoice.Number!, repair.Number, writeOff.Amount) }, 0, writeOff.TakesBackId != null, db.WriteOffs.Any(other => other.TakesBackId == writeOff.Id)))
        .Take(MostEntries + 1).ToListAsync(cancel);
}
