using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Reminders;
using RepairShop.Services.Database;
using RepairShop.Services.Post;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Reminders;

/// <summary>Who is late, what is proposed, and what was sent.</summary>
public sealed class ReminderListService(ShopDb db, TimeProvider clock)
{
    private const int MostInvoices = 300;
    private const int MostLetters = 30;

    public async Task<ReminderDesk> DeskAsync(CancellationToken cancel)
    {
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var today = shop.Today(clock.GetUtcNow());
        var late = await LateAsync(today, cancel);
        var steps = await db.ReminderSteps.AsNoTracking().OrderBy(row => row.Number).ToListAsync(cancel);
        var customers = await CustomersAsync(late, cancel);
        var cases = await ReminderCases.ReadAsync(db, late, customers, cancel);
        var repairIds = late.Select(invoice => invoice.RepairId).ToList();
        var repairs = await db.Repairs.Where(row => repairIds.Contains(row.Id)).ToDictionaryAsync(row => row.Id, row => row.Number, cancel);
        var rows = late.Take(MostInvoices).Select(invoice => Row(cases[invoice.Id], customers[invoice.CustomerId], repairs[invoice.RepairId])).ToList();
        return new ReminderDesk(
            [.. rows.Where(row => row.Why is null)], [.. rows.Where(row => row.Why is ReminderOnHold or CustomerNotReminded)],
            [.. rows.Where(row => row.Why is not (null or ReminderOnHold or CustomerNotReminded))], await LettersAsync(cancel), late.Count > MostInvoices);

        LateInvoice Row(ReminderCase about, Customer customer, string repair)
        {
            var step = ReminderRules.DueStep(about, steps, today);
            var invoice = about.Invoice;
            return new LateInvoice(
                invoice.Id, invoice.Number!, repair, customer.Id, about.Customer, LetterService.IsUsable(customer.Email) ? customer.Email : "", invoice.Currency, invoice.Balance,
                ReminderRules.DueDay(invoice), today.DayNumber - ReminderRules.DueDay(invoice).DayNumber, about.Sent.Count, step.Failure)
            {
                Step = step.Value?.Number ?? 0,
                Title = step.Value?.Title ?? "",
                Fee = shop.ReminderFees && invoice.Currency == shop.Currency ? step.Value?.Fee ?? 0 : 0,
            };
        }
    }

    /// <summary>Of the invoices of one repair, by their ids.</summary>
    public async Task<IReadOnlyDictionary<Guid, InvoiceReminders>> OfRepairAsync(string number, CancellationToken cancel)
    {
        var today = (await db.Shop.AsNoTracking().SingleAsync(cancel)).Today(clock.GetUtcNow());
        var ids = await db.Invoices.Where(row => row.IssuedAt != null && db.Repairs.Any(repair => repair.Id == row.RepairId && repair.Number == number)).Select(row => row.Id).ToListAsync(cancel);
        var sent = (await (
            from reminder in db.Reminders
            join letter in db.ReminderLetters on reminder.LetterId equals letter.Id
            join paper in db.Papers on letter.PaperId equals paper.Id
            where ids.Contains(reminder.InvoiceId)
            orderby reminder.Step
            select new
            {
                reminder.InvoiceId,
                View = new InvoiceReminder(
                    reminder.Step, reminder.Title, reminder.SentOn, letter.PayBy, reminder.Due, letter.Fee, paper.Id, paper.Number,
                    db.Users.Where(account => account.Id == letter.RecordedBy).Select(account => account.DisplayName).FirstOrDefault() ?? ""),
            }).ToListAsync(cancel)).ToLookup(row => row.InvoiceId, row => row.View);
        var holds = await ReminderCases.HoldsAsync(db, ids, cancel);
        return ids.ToDictionary(id => id, id => holds.GetValueOrDefault(id) is { Until: { } until } hold && today < until
            ? new InvoiceReminders([.. sent[id]], until, hold.Reason)
            : new InvoiceReminders([.. sent[id]], null, ""));
    }

    // Word for word the condition of the index ix_invoices_open, and then those with something to pay.
    private Task<List<Invoice>> LateAsync(DateOnly today, CancellationToken cancel) => db.Invoices.AsNoTracking()
        .Where(row => row.Kind == InvoiceKind.Invoice && row.IssuedAt != null && row.Gross + row.CashRounding - row.Credited - row.Paid - row.WrittenOff != 0)
        .Where(row => row.Gross + row.CashRounding - row.Credited - row.Paid - row.WrittenOff > 0 && (row.DueDate ?? row.IssueDate) < today)
        .OrderBy(row => row.DueDate ?? row.IssueDate).ThenBy(row => row.Id).Take(MostInvoices + 1).ToListAsync(cancel);

    private Task<Dictionary<Guid, Customer>> CustomersAsync(List<Invoice> invoices, CancellationToken cancel)
    {
        var ids = invoices.Select(invoice => invoice.CustomerId).Distinct().ToList();
        return db.Customers.AsNoTracking().Where(row => ids.Contains(row.Id)).ToDictionaryAsync(row => row.Id, cancel);
    }

    /// <summary>The newest, and every one that still waits to be posted.</summary>
    private async Task<IReadOnlyList<LetterView>> LettersAsync(CancellationToken cancel)
    {
        var newest = db.ReminderLetters.OrderByDescending(row => row.Id).Take(MostLetters).Select(row => row.Id);
        var rows = await (
            from letter in db.ReminderLetters.AsNoTracking().Include(row => row.Reminders)
            where newest.Contains(letter.Id) || (!letter.ByMail && letter.PostedAt == null)
            join paper in db.Papers on letter.PaperId equals paper.Id
            join customer in db.Customers on letter.CustomerId equals customer.Id
            orderby letter.Id descending
            select new
            {
                Letter = letter,
                paper.Number,
                Customer = customer.Name == "" ? customer.Company : customer.Name,
                By = db.Users.Where(account => account.Id == letter.RecordedBy).Select(account => account.DisplayName).FirstOrDefault() ?? "",
            }).ToListAsync(cancel);
        var ids = rows.SelectMany(row => row.Letter.Reminders).Select(reminder => reminder.InvoiceId).ToList();
        var numbers = await db.Invoices.Where(row => ids.Contains(row.Id)).ToDictionaryAsync(row => row.Id, row => row.Number!, cancel);
        return [.. rows.Select(row => new LetterView(
            row.Letter.Id, row.Letter.PaperId, row.Number, row.Letter.CustomerId, row.Customer, row.Letter.Reminders.MaxBy(one => one.Step)!.Title, row.Letter.SentOn,
            row.Letter.PayBy, row.Letter.Currency, row.Letter.Reminders.Sum(one => one.Due), row.Letter.Fee,
            [.. row.Letter.Reminders.Select(one => numbers[one.InvoiceId]).Order(StringComparer.Ordinal)], row.Letter.ByMail, row.Letter.PostedAt, row.By))];
    }
}
