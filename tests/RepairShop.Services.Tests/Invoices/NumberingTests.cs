using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Shop;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Invoices;

public sealed class NumberingTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    [Fact]
    public async Task Sixty_four_invoices_issued_at_once_have_sixty_four_numbers_without_a_gap()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var drafts = new List<Guid>();
        for (var index = 0; index < 64; index++)
        {
            var repair = await book.Repair(preApproved: 500);
            await InvoiceTests.Work(book, repair, 60);
            drafts.Add(await InvoiceTests.Begin(book, repair.Number));
        }
        var papers = await Task.WhenAll(drafts.Select(id => Task.Run(() => InvoiceTests.Issue(book, id))));
        Assert.Equal(
            Enumerable.Range(1, 64).Select(number => $"I-2026-{number:0000}"),
            papers.Select(paper => MoneyBook.Done(paper).Number).Order());
    }

    [Fact]
    public async Task A_number_whose_transaction_dies_is_given_to_the_next()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        await book.Db(async db =>
        {
            await using var work = await db.Database.BeginTransactionAsync(Ct);
            Assert.Equal("I-2026-0001", await NumberGiver.NextAsync(db, "invoice", "I-{year}-{number:0000}", book.Today, Ct));
            // As kill -9 would: the connection is cut by the server while the transaction is open.
            var pid = await db.Database.SqlQuery<int>($"select pg_backend_pid()").ToListAsync(Ct);
            await book.Db(other => other.Database.ExecuteSqlAsync($"select pg_terminate_backend({pid[0]})", Ct));
            await Assert.ThrowsAnyAsync<Exception>(() => work.CommitAsync(Ct));
        });
        var repair = await book.Repair(preApproved: 500);
        await InvoiceTests.Work(book, repair, 60);
        var paper = await InvoiceTests.Issue(book, await InvoiceTests.Begin(book, repair.Number));
        Assert.Equal("I-2026-0001", MoneyBook.Done(paper).Number);
    }

    [Fact]
    public async Task A_refused_issue_takes_no_number()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var unaddressed = await book.Repair(preApproved: 500, email: "");
        await InvoiceTests.Work(book, unaddressed, 60);
        var id = await InvoiceTests.Begin(book, unaddressed.Number);
        Assert.IsType<Domain.Post.NoMailAddress>((await InvoiceTests.Issue(book, id, byMail: true)).Failure);
        Assert.Equal("I-2026-0001", MoneyBook.Done(await InvoiceTests.Issue(book, id)).Number);
    }

    [Fact]
    public async Task Credit_notes_have_a_series_of_their_own_and_the_new_year_starts_at_one()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 500);
        await InvoiceTests.Work(book, repair, 60);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await InvoiceTests.Issue(book, id));
        var credit = await book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(id, "Wrong customer", false, Ct));
        Assert.Equal("C-2026-0001", MoneyBook.Done(credit).Number);
        book.Clock.SetUtcNow(new DateTimeOffset(2027, 1, 1, 0, 30, 0, TimeSpan.Zero));
        MoneyBook.Done(await InvoiceTests.Issue(book, await InvoiceTests.Begin(book, repair.Number)));
        Assert.Contains((await book.Money(repair.Number)).Issued, invoice => invoice.Number == "I-2027-0001");
    }
}
