using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Reminders;
using RepairShop.Services.Database;

namespace RepairShop.Services.Reminders;

/// <summary>Reads what decides about reminders, for many invoices at once.</summary>
internal static class ReminderCases
{
    /// <param name="db"></param>
    /// <param name="invoices"></param>
    /// <param name="customers">Theirs, by id.</param>
    /// <param name="cancel"></param>
    public static async Task<Dictionary<Guid, ReminderCase>> ReadAsync(
        ShopDb db, IReadOnlyCollection<Invoice> invoices, IReadOnlyDictionary<Guid, Customer> customers, CancellationToken cancel)
    {
        var ids = invoices.Select(invoice => invoice.Id).ToList();
        var sent = (await (
            from reminder in db.Reminders
            join letter in db.ReminderLetters on reminder.LetterId equals letter.Id
            where ids.Contains(reminder.InvoiceId)
            select new { reminder.InvoiceId, Sent = new SentReminder(reminder.Step, reminder.SentOn, letter.PayBy) }).ToListAsync(cancel)).ToLookup(row => row.InvoiceId, row => row.Sent);
        var holds = await HoldsAsync(db, ids, cancel);
        var held = await HeldAsync(db, [.. customers.Keys], cancel);
        return invoices.ToDictionary(invoice => invoice.Id, invoice => new ReminderCase(
            invoice, NameOf(customers[invoice.CustomerId]), customers[invoice.CustomerId].NoReminders, held.GetValueOrDefault((invoice.CustomerId, invoice.Currency)),
            [.. sent[invoice.Id]], holds.GetValueOrDefault(invoice.Id)));
    }

    /// <summary>The newest of each invoice.</summary>
    public static async Task<Dictionary<Guid, ReminderHold>> HoldsAsync(ShopDb db, IReadOnlyCollection<Guid> invoices, CancellationToken cancel) =>
        (await db.ReminderHolds.AsNoTracking().Where(row => invoices.Contains(row.InvoiceId)).ToListAsync(cancel))
            .GroupBy(row => row.InvoiceId).ToDictionary(group => group.Key, group => group.MaxBy(row => (row.RecordedAt, row.Id))!);

    public static string NameOf(Customer customer) => customer.Name.Length > 0 ? customer.Name : customer.Company;

    /// <summary>Fees told and neither taken nor waived, oldest first.</summary>
    public static Task<List<OpenFee>> OpenFeesAsync(ShopDb db, Guid customerId, CancellationToken cancel) => (
        from letter in db.ReminderLetters
        join paper in db.Papers on letter.PaperId equals paper.Id
        where letter.CustomerId == customerId && letter.Fee > 0 && letter.FeeWaivedAt == null
            && db.CustomerCredits.Where(row => row.ReminderLetterId == letter.Id).Sum(row => row.Amount) == 0
        orderby letter.Id
        select new OpenFee(letter.Id, paper.Id, paper.Number, letter.SentOn, letter.Currency, letter.Fee)).ToListAsync(cancel);

    public static ReminderFeeFacts Facts(OpenFee fee) => new(fee.Number, fee.On, fee.Amount);

    /// <summary>Credit, and what has to go back on invoices that were paid and then credited.</summary>
    private static async Task<Dictionary<(Guid, string), decimal>> HeldAsync(ShopDb db, IReadOnlyCollection<Guid> customers, CancellationToken cancel)
    {
        var credits = await db.CustomerCredits.Where(row => customers.Contains(row.CustomerId)).GroupBy(row => new { row.CustomerId, row.Currency })
            .Select(group => new { group.Key.CustomerId, group.Key.Currency, Sum = group.Sum(row => row.Amount) }).ToListAsync(cancel);
        var back = await db.Invoices.Where(row => customers.Contains(row.CustomerId) && row.Kind == InvoiceKind.Invoice && row.IssuedAt != null
                && row.Gross + row.CashRounding - row.Credited - row.Paid - row.WrittenOff < 0)
            .GroupBy(row => new { row.CustomerId, row.Currency })
            .Select(group => new { group.Key.CustomerId, group.Key.Currency, Sum = -group.Sum(row => row.Gross + row.CashRounding - row.Credited - row.Paid - row.WrittenOff) }).ToListAsync(cancel);
        return credits.Concat(back).GroupBy(row => (row.CustomerId, row.Currency)).ToDictionary(group => group.Key, group => group.Sum(row => row.Sum));
    }
}

/// <summary>A fee a letter asked for.</summary>
public sealed record OpenFee(Guid LetterId, Guid PaperId, string Number, DateOnly On, string Currency, decimal Amount);
