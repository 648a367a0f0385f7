using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Post;
using RepairShop.Domain.Reminders;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Files;
using RepairShop.Services.Invoices;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Post;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Reminders;

/// <summary>Sends reminders somebody asked for: one letter to each customer and currency, all of them or none.</summary>
public sealed class ReminderSendService(ShopDb db, FileStore files, CurrentPerson person, TimeProvider clock, LetterService letters)
{
    private const string Series = "R-{year}-{number:0000}";

    /// <summary>The letter as it would go out now, with every invoice of the customer that is due for a step.</summary>
    public async Task<Result<ReminderPreview>> PreviewAsync(Guid customerId, string currency, CancellationToken cancel)
    {
        if (await db.Customers.AsNoTracking().SingleOrDefaultAsync(row => row.Id == customerId, cancel) is not { } customer)
            return new CustomerNotFound();
        var desk = await OpenDeskAsync(cancel);
        var open = await db.Invoices.AsNoTracking().Where(row => row.CustomerId == customerId && row.Currency == currency && row.IssuedAt != null && row.Kind == InvoiceKind.Invoice
            && row.Gross + row.CashRounding - row.Credited - row.Paid - row.WrittenOff > 0).ToListAsync(cancel);
        var cases = await ReminderCases.ReadAsync(db, open, new Dictionary<Guid, Customer> { [customerId] = customer }, cancel);
        var asked = cases.Values.Select(about => (about.Invoice, Step: ReminderRules.DueStep(about, desk.Steps, desk.Today))).ToList();
        if (asked.All(one => !one.Step.IsDone))
            return asked.Count == 0 ? new CustomerNotFound() : asked[0].Step.Failure!;
        List<RemindedInvoice> due = [.. asked.Where(one => one.Step.IsDone).Select(one => new RemindedInvoice(one.Invoice, one.Step.Value!))];
        return new ReminderPreview(
            FactsOf(desk, customer, due, await FiguresAsync(desk, customer, due, cancel), ""), [.. due.Select(one => new TickedReminder(one.Invoice.Id, one.Step.Number))],
            LetterService.IsUsable(customer.Email) ? customer.Email : "");
    }

    /// <param name="ticked">Each with the step the page showed: one that is another by now is refused, and nothing is sent.</param>
    /// <param name="cancel"></param>
    public async Task<Result<SentLetters>> SendAsync(IReadOnlyCollection<TickedReminder> ticked, CancellationToken cancel)
    {
        if (ticked.Count == 0)
            return new NothingTicked();
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        var asked = ticked.DistinctBy(one => one.InvoiceId).ToDictionary(one => one.InvoiceId, one => one.Step);
        var (customers, invoices) = await LockAsync([.. asked.Keys], cancel);
        if (invoices.Count != asked.Count)
            return new NoSuchInvoice();
        var desk = await OpenDeskAsync(cancel);
        var cases = await ReminderCases.ReadAsync(db, invoices, customers, cancel);
        var due = new List<RemindedInvoice>();
        foreach (var invoice in invoices)
        {
            var step = ReminderRules.DueStep(cases[invoice.Id], desk.Steps, desk.Today);
            if (!step.IsDone)
                return step.Failure;
            if (step.Value.Number != asked[invoice.Id])
                return new ReminderStepChanged(invoice.Number!);
            due.Add(new RemindedInvoice(invoice, step.Value));
        }
        var sent = new List<ReminderLetter>();
        foreach (var letter in due.GroupBy(one => (one.Invoice.CustomerId, one.Invoice.Currency)))
        {
            var written = await WriteAsync(desk, customers[letter.Key.CustomerId], [.. letter], cancel);
            if (!written.IsDone)
                return written.Failure;
            sent.Add(written.Value);
        }
        if (await db.SaveAsync(
            cancel, ("ux_reminders_step", new ReminderSentAlready()), ("ux_reminders_day", new ReminderSentAlready()), ("reminder_steps_in_order", new ReminderSentAlready()),
            ("reminder_names_what_is_owed", new ReminderAmountChanged())) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await work.CommitAsync(cancel);
        return new SentLetters(sent.Count(letter => letter.ByMail), [.. sent.Where(letter => !letter.ByMail).Select(letter => letter.PaperId)]);
    }

    /// <summary>A printed letter was handed to the post.</summary>
    public async Task<Result> PostedAsync(Guid letterId, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if ((await db.ReminderLetters.FromSql($"select * from reminder_letters where id = {letterId} for no key update").ToListAsync(cancel)).SingleOrDefault() is not { } letter)
            return new NoSuchReminderLetter();
        if (letter.ByMail)
            return new ReminderWentByMail(await db.Papers.Where(row => row.Id == letter.PaperId).Select(row => row.Number).SingleAsync(cancel));
        if (letter.PostedAt is not null)
            return Result.Done; // the second of two clicks
        (letter.PostedAt, letter.PostedBy) = (clock.GetUtcNow(), person.RequiredId);
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved;
        await work.CommitAsync(cancel);
        return Result.Done;
    }

    private async Task<Result<ReminderLetter>> WriteAsync(Desk desk, Customer customer, List<RemindedInvoice> due, CancellationToken cancel)
    {
        var figures = await FiguresAsync(desk, customer, due, cancel);
        var number = await NumberGiver.NextAsync(db, "reminder", Series, desk.Today, cancel);
        var facts = FactsOf(desk, customer, due, figures, number);
        var paper = await PaperPress.PressAsync(db, files, PaperKind.Reminder, facts, new PaperOf(null, person.RequiredId, CustomerId: customer.Id), cancel);
        var letter = new ReminderLetter
        {
            CustomerId = customer.Id,
            PaperId = paper.Id,
            Currency = facts.Currency,
            Fee = facts.Fee,
            SentOn = desk.Today,
            PayBy = facts.PayBy,
            RecordedAt = desk.Now,
            RecordedBy = person.RequiredId,
            ByMail = LetterService.IsUsable(customer.Email),
            Reminders = [.. due.Select(one => new Reminder { InvoiceId = one.Invoice.Id, Step = one.Step.Number, Title = one.Step.Title, SentOn = desk.Today, Due = one.Invoice.Balance })],
        };
        db.ReminderLetters.Add(letter);
        if (letter.ByMail && await letters.WriteAsync(customer, desk.Shop, null, MailKind.Reminder, Values(desk.Shop, customer, figures, number, facts.Currency), [paper.Id], cancel)
            is { IsDone: false } unwritten)
            return unwritten.Failure;
        return letter;
    }

    private async Task<ReminderFigures> FiguresAsync(Desk desk, Customer customer, List<RemindedInvoice> due, CancellationToken cancel)
    {
        var currency = due[0].Invoice.Currency;
        var fees = await ReminderCases.OpenFeesAsync(db, customer.Id, cancel);
        return ReminderFigures.Of(
            due, [.. fees.Where(fee => fee.Currency == currency).Select(ReminderCases.Facts)], desk.Shop.ReminderFees && currency == desk.Shop.Currency, desk.Today);
    }

    private ReminderFacts FactsOf(Desk desk, Customer customer, List<RemindedInvoice> due, ReminderFigures figures, string number) => new()
    {
        PaperNumber = number,
        IssuedAt = desk.Now,
        IssuedBy = person.Name,
        Shop = CommonFacts.Of(desk.Shop),
        Customer = CommonFacts.Of(customer),
        IssueDate = desk.Today,
        Title = figures.Leading.Title,
        Text = MailTextFill.Fill(figures.Leading.Text, Values(desk.Shop, customer, figures, number, due[0].Invoice.Currency)).Text,
        Currency = due[0].Invoice.Currency,
        Lines = figures.Lines,
        Due = figures.Due,
        Fee = figures.Fee,
        EarlierFees = figures.EarlierFees,
        Total = figures.Total,
        PayBy = figures.PayBy,
        PaymentReference = due.Count == 1 && desk.Shop.Iban.Length > 0 ? CreditorReference.Of(due[0].Invoice.Number!) : null,
    };

    private static Dictionary<string, string> Values(ShopSettings shop, Customer customer, ReminderFigures figures, string number, string currency) => new()
    {
        ["customer"] = ReminderCases.NameOf(customer),
        ["shop"] = shop.Name,
        ["paper"] = number,
        ["title"] = figures.Leading.Title,
        ["total"] = shop.Money(figures.Total, currency),
        ["due"] = shop.Day(figures.PayBy),
    };

    /// <summary>Customers first, then invoices by id, as whoever moves their money does.</summary>
    private async Task<(Dictionary<Guid, Customer> Customers, List<Invoice> Invoices)> LockAsync(Guid[] ids, CancellationToken cancel)
    {
        var owners = await db.Invoices.Where(row => ids.Contains(row.Id)).Select(row => row.CustomerId).Distinct().OrderBy(id => id).ToListAsync(cancel);
        foreach (var owner in owners)
            await CreditBook.LockAsync(db, owner, cancel);
        var invoices = await db.Invoices.FromSql($"select i.*, i.xmin from invoices i where i.id = any({ids}) order by i.id for update").AsNoTracking().ToListAsync(cancel);
        return (await db.Customers.AsNoTracking().Where(row => owners.Contains(row.Id)).ToDictionaryAsync(row => row.Id, cancel), invoices);
    }

    private async Task<Desk> OpenDeskAsync(CancellationToken cancel)
    {
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var now = clock.GetUtcNow();
        return new Desk(shop, await db.ReminderSteps.AsNoTracking().ToListAsync(cancel), now, shop.Today(now));
    }

    private sealed record Desk(ShopSettings Shop, IReadOnlyList<ReminderStep> Steps, DateTimeOffset Now, DateOnly Today);
}
