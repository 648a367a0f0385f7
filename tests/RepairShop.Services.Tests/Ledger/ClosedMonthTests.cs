using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Results;
using RepairShop.Services.Ledger;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Ledger;

public sealed class ClosedMonthTests(PostgresServer server)
{
    private static readonly DateOnly October = new(2026, 10, 1);

    private static CancellationToken Ct => MoneyBook.Cancel;

    private static Task<Result> Close(MoneyBook book, DateOnly month) => book.Do<LedgerService, Result>(service => service.CloseAsync(month, Ct));

    [Fact]
    public async Task A_closed_month_takes_no_more_money_nor_does_any_month_before_it()
    {
        await using var book = await MoneyBook.OpenAsync(server); // 24 November 2026
        var id = await JournalTests.Issued(book);
        MoneyBook.Done(await JournalTests.Pay(book, id, 1, on: new DateOnly(2026, 10, 31)));
        MoneyBook.Done(await Close(book, October));
        Assert.Equal(new MonthIsClosed(), (await JournalTests.Pay(book, id, 1, on: new DateOnly(2026, 10, 31))).Failure);
        Assert.Equal(new MonthIsClosed(), (await JournalTests.Pay(book, id, 1, on: new DateOnly(2026, 9, 30))).Failure);
        Assert.Equal(1, await book.Db(db => db.Payments.CountAsync(Ct)));
        MoneyBook.Done(await JournalTests.Pay(book, id, 1, on: new DateOnly(2026, 11, 1)));
    }

    [Fact]
    public async Task The_running_month_can_not_be_closed_and_no_month_twice()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        Assert.Equal(new MonthNotOver(new DateOnly(2026, 11, 1)), (await Close(book, book.Today)).Failure);
        MoneyBook.Done(await Close(book, new DateOnly(2026, 10, 17)));
        Assert.Equal(new MonthClosedAlready(October), (await Close(book, October)).Failure);
        Assert.Equal(new MonthClosedAlready(new DateOnly(2026, 9, 1)), (await Close(book, new DateOnly(2026, 9, 1))).Failure);
    }

    [Fact]
    public async Task Two_people_closing_at_once_close_it_once()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var results = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Close(book, October)));
        Assert.Single(results, result => result.IsDone);
        Assert.All(results.Where(result => !result.IsDone), result => Assert.IsType<MonthClosedAlready>(result.Failure));
    }

    /// <summary>Whoever is writing when the month is closed is in before, or refused: nothing appears in it afterwards.</summary>
    [Fact]
    public async Task Paying_while_the_month_is_closed_leaves_every_book_balanced_and_nothing_in_the_month_afterwards()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var invoices = new List<Guid>();
        for (var n = 0; n < 8; n++)
            invoices.Add(await JournalTests.Issued(book));
        var paying = invoices.SelectMany(id => Enumerable.Range(0, 6).Select(_ => JournalTests.Pay(book, id, 1, on: new DateOnly(2026, 10, 20)))).ToList();
        var closing = book.Do<LedgerService, (Result Result, int Seen)>(async service =>
        {
            var result = await service.CloseAsync(October, Ct);
            return (result, await book.Db(db => db.JournalEntries.CountAsync(row => row.Date < new DateOnly(2026, 11, 1), Ct)));
        });
        var results = await Task.WhenAll(paying);
        var (closed, seen) = await closing;
        MoneyBook.Done(closed);
        Assert.All(results.Where(result => !result.IsDone), result => Assert.Equal(new MonthIsClosed(), result.Failure));
        Assert.Equal(results.Count(result => result.IsDone), seen);
        Assert.Equal(seen, await book.Db(db => db.JournalEntries.CountAsync(row => row.Date < new DateOnly(2026, 11, 1), Ct)));
        Assert.Equal(seen, await book.Db(db => db.Payments.CountAsync(Ct)));
        Assert.Equal(0, await book.Db(db => db.JournalLines.SumAsync(line => line.Amount, Ct)));
    }

    [Fact]
    public async Task Issuing_and_paying_at_once_keeps_the_journal_in_step_with_the_invoices()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        await Task.WhenAll(Enumerable.Range(0, 10).Select(async n =>
        {
            var id = await JournalTests.Issued(book, 30 + n);
            await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => JournalTests.Pay(book, id, 20)));
        }));
        var owed = await book.Db(db => db.Invoices.SumAsync(row => row.Gross - row.Paid, Ct));
        var balances = await JournalTests.Balances(book);
        Assert.Equal((owed, 0m), (balances[LedgerAccount.Receivables], balances.Values.Sum()));
        Assert.Equal(0, await book.Db(db => db.JournalEntries.CountAsync(row => row.Lines.Sum(line => line.Amount) != 0, Ct)));
    }
}
