using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Customers;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Post;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Files;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Post;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>A statement as it would be made now, and those made before.</summary>
public sealed record StatementSheet(Guid CustomerId, StatementFacts Facts, IReadOnlyList<PaperView> Papers);

/// <summary>What a customer owes over a span of days, on screen, on paper, by mail.</summary>
public sealed class StatementService(ShopDb db, FileStore files, CurrentPerson person, TimeProvider clock, LetterService letters)
{
    private const string Series = "S-{year}-{number:0000}";

    /// <param name="customerId"></param>
    /// <param name="from">First day; null for three months back, at the first of the month.</param>
    /// <param name="until">Last day; null for today.</param>
    /// <param name="cancel"></param>
    public async Task<Result<StatementSheet>> ShowAsync(Guid customerId, DateOnly? from, DateOnly? until, CancellationToken cancel)
    {
        var facts = await FactsAsync(customerId, from, until, _ => Task.FromResult(""), cancel);
        if (!facts.IsDone)
            return facts.Failure;
        var papers = await db.Papers.AsNoTracking().Where(row => row.CustomerId == customerId && row.Kind == PaperKind.Statement).OrderByDescending(row => row.Id)
            .Select(row => new PaperView(
                row.Id, row.Kind, row.Number, row.IssuedAt,
                db.Users.Where(account => account.Id == row.IssuedBy).Select(account => account.DisplayName).FirstOrDefault() ?? "", row.Bytes)).ToListAsync(cancel);
        return new StatementSheet(customerId, facts.Value.Facts, papers);
    }

    /// <summary>Number, facts, paper and letter in one transaction, or none of them.</summary>
    public async Task<Result<IssuedPaper>> MakeAsync(Guid customerId, DateOnly from, DateOnly until, bool byMail, CancellationToken cancel)
    {
        await using var work = await db.Database.BeginTransactionAsync(cancel);
        if (!await CreditBook.LockAsync(db, customerId, cancel))
            return new CustomerNotFound();
        var made = await FactsAsync(customerId, from, until, today => NumberGiver.NextAsync(db, "statement", Series, today, cancel), cancel);
        if (!made.IsDone)
            return made.Failure;
        var (facts, customer, shop) = made.Value;
        var paper = await PaperPress.PressAsync(db, files, PaperKind.Statement, facts, new PaperOf(null, person.RequiredId, CustomerId: customerId), cancel);
        var values = new Dictionary<string, string>
        {
            ["paper"] = paper.Number,
            ["from"] = shop.Day(from),
            ["until"] = shop.Day(until),
            ["total"] = shop.Money(facts.Closing, facts.Currency),
        };
        if (byMail && await letters.WriteAsync(customer, shop, null, MailKind.Statement, values, [paper.Id], cancel) is { IsDone: false } unwritten)
            return unwritten.Failure;
        if (await db.SaveAsync(cancel) is { IsDone: false } unsaved)
            return unsaved.Failure;
        await work.CommitAsync(cancel);
        return paper;
    }

    private async Task<Result<(StatementFacts Facts, Customer Customer, ShopSettings Shop)>> FactsAsync(
        Guid customerId, DateOnly? first, DateOnly? last, Func<DateOnly, Task<string>> number, CancellationToken cancel)
    {
        if (await db.Customers.AsNoTracking().SingleOrDefaultAsync(row => row.Id == customerId, cancel) is not { } customer)
            return new CustomerNotFound();
        var shop = await db.Shop.AsNoTracking().SingleAsync(cancel);
        var now = clock.GetUtcNow();
        var today = shop.Today(now);
        var until = last ?? today;
        if (until > today)
            return new StatementInFuture(until);
        var from = first ?? (until.Year > 1 ? new DateOnly(until.Year, until.Month, 1).AddMonths(-3) : until);
        if (until < from)
            return new StatementDaysWrong(from, until);
        var (events, due) = await AccountEvents.ReadAsync(db, customerId, shop.Currency, cancel);
        var span = CustomerAccount.Of(events, due, from, until);
        return (new StatementFacts
        {
            PaperNumber = await number(today),
            IssuedAt = now,
            IssuedBy = person.Name,
            Shop = CommonFacts.Of(shop),
            Customer = CommonFacts.Of(customer),
            From = from,
            Until = until,
            Currency = shop.Currency,
            Opening = span.Opening,
            Lines = span.Lines,
            Closing = span.Closing,
            Ages = span.Ages,
            Credit = span.Credit,
            ToGiveBack = span.ToGiveBack,
        }, customer, shop);
    }
}
