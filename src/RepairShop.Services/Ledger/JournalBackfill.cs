using Microsoft.EntityFrameworkCore;
using RepairShop.Services.Database;

namespace RepairShop.Services.Ledger;

/// <summary>Writes down what was issued and paid before there was a journal, or by other means than this program. Asks for
/// nothing when all is there. What lies in a closed month stays out: the month was handed over without it.</summary>
public static class JournalBackfill
{
    private const int Batch = 500;

    public static async Task EnsureAsync(ShopDb db, CancellationToken cancel)
    {
        var open = await db.ClosedMonths.MaxAsync(row => (DateOnly?)row.Month, cancel) is { } closed ? closed.AddMonths(1) : DateOnly.MinValue;
        for (Guid? after = null; await InvoicesAsync(db, open, after, cancel) is { } last;)
            after = last;
        for (Guid? after = null; await PaymentsAsync(db, open, after, cancel) is { } last;)
            after = last;
    }

    private static async Task<Guid?> InvoicesAsync(ShopDb db, DateOnly open, Guid? after, CancellationToken cancel)
    {
        var unbooked = db.Invoices.AsNoTracking()
            .Where(row => row.IssuedAt != null && row.IssueDate >= open && (after == null || row.Id > after)
                && !db.JournalEntries.Any(entry => entry.InvoiceId == row.Id && entry.PaymentId == null && entry.WriteOffId == null));
        // Asked by itself, since at nearly every start there is nothing and the whole question takes the mapper far longer to put.
        if (!await unbooked.AnyAsync(cancel))
            return null;
        var missing = await unbooked.Include(row => row.Lines).Include(row => row.Changes).Include(row => row.Taxes).AsSplitQuery()
            .OrderBy(row => row.Id).Take(Batch).ToListAsync(cancel);
        var credited = await Bookkeeper.CreditedAsync(db, missing, cancel);
        foreach (var invoice in missing)
            Bookkeeper.Add(db, Bookkeeper.OfInvoice(invoice, invoice.CreditsId is { } id ? credited[id] : null));
        return await SaveAsync(db, missing.Count > 0 ? missing[^1].Id : null, cancel);
    }

    private static async Task<Guid?> PaymentsAsync(ShopDb db, DateOnly open, Guid? after, CancellationToken cancel)
    {
        var missing = await db.Payments.AsNoTracking()
            .Where(row => row.PaidOn >= open && (after == null || row.Id > after) && !db.JournalEntries.Any(entry => entry.PaymentId == row.Id))
            .OrderBy(row => row.Id).Take(Batch)
            .Join(db.Invoices, row => row.InvoiceId, invoice => invoice.Id, (row, invoice) => new { Payment = row, invoice.Currency }).ToListAsync(cancel);
        foreach (var row in missing)
            Bookkeeper.Add(db, Bookkeeper.OfPayment(row.Payment, row.Currency));
        return await SaveAsync(db, missing.Count > 0 ? missing.Max(row => row.Payment.Id) : null, cancel);
    }

    private static async Task<Guid?> SaveAsync(ShopDb db, Guid? last, CancellationToken cancel)
    {
        await db.SaveChangesAsync(cancel);
        db.ChangeTracker.Clear();
        return last;
    }
}
