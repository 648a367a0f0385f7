using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Tests.Ledger;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Invoices;

/// <summary>Invoices of 72.60 on 24, 145.20 on 25 and 36.30 on 26 November 2026, each due after 14 days.</summary>
public sealed class StatementTests(PostgresServer server)
{
    private static readonly DateOnly First = new(2026, 11, 24);

    private static CancellationToken Ct => MoneyBook.Cancel;

    private static Task<Result<StatementSheet>> Show(Debtor who, DateOnly? from, DateOnly? until) =>
        who.Book.Do<StatementService, Result<StatementSheet>>(service => service.ShowAsync(who.Customer, from, until, Ct));

    /// <summary>27 November: a transfer of 250 for the first two, the rest as credit, of which 20 go to the third; and 5 of it are given up.</summary>
    private static async Task<Debtor> Busy(PostgresServer server)
    {
        var who = await Debtor.With(server, 60, 120, 30);
        MoneyBook.Done(await who.Receive(who.Money(250, 72.60m, 145.20m)));
        MoneyBook.Done(await who.UseCredit(2, 20));
        MoneyBook.Done(await who.Book.Do<WriteOffService, Result>(service => service.WriteOffAsync(who.Invoices[2], 5, "Goodwill", Guid.NewGuid(), Ct)));
        return who;
    }

    [Fact]
    public async Task Every_invoice_payment_and_write_off_stands_in_order_and_the_end_is_what_is_owed_less_credit()
    {
        await using var who = await Busy(server);
        var facts = MoneyBook.Done(await Show(who, First.AddDays(1), null)).Facts;
        Assert.Equal(72.60m, facts.Opening);
        Assert.Equal(
            [
                new(new(2026, 11, 25), StatementLineKind.Invoice, "I-2026-0002", "", 145.20m, 217.80m),
                new(new(2026, 11, 26), StatementLineKind.Invoice, "I-2026-0003", "", 36.30m, 254.10m),
                new(new(2026, 11, 27), StatementLineKind.Payment, "", "statement 7", -250, 4.10m),
                new StatementLineFacts(new(2026, 11, 27), StatementLineKind.WriteOff, "I-2026-0003", "", -5, -0.90m),
            ], facts.Lines);
        Assert.Equal((-0.90m, 11.30m, 12.20m, 0m), (facts.Closing, facts.Ages.Together, facts.Credit, facts.ToGiveBack));
        Assert.Equal((await who.Owed()).Sum() - await who.Credit(), facts.Closing);
    }

    [Theory]
    [InlineData(14, 145.20, 0, 0)]
    [InlineData(15, 72.60, 72.60, 0)]
    [InlineData(44, 0, 145.20, 0)]
    [InlineData(45, 0, 72.60, 72.60)]
    public async Task What_is_owed_is_told_by_how_late_it_was_on_the_last_day(int days, decimal notDue, decimal upTo30, decimal upTo60)
    {
        await using var who = await Debtor.With(server, 60, 60);
        // The first is due on 8 December, the second on 9 December.
        who.Book.Clock.Advance(TimeSpan.FromDays(60));
        var ages = MoneyBook.Done(await Show(who, First, First.AddDays(days))).Facts.Ages;
        Assert.Equal((notDue, upTo30, upTo60, 0m, 0m), (ages.NotDue, ages.UpTo30, ages.UpTo60, ages.UpTo90, ages.Older));
    }

    [Fact]
    public async Task Days_that_touch_close_and_open_with_the_same_balance()
    {
        await using var who = await Busy(server);
        for (var day = First.AddDays(-1); day < who.Book.Today; day = day.AddDays(1))
            Assert.Equal(MoneyBook.Done(await Show(who, First.AddDays(-1), day)).Facts.Closing, MoneyBook.Done(await Show(who, day.AddDays(1), null)).Facts.Opening);
        Assert.Equal(new StatementDaysWrong(First.AddDays(1), First), (await Show(who, First.AddDays(1), First)).Failure);
        Assert.Equal(new StatementInFuture(who.Book.Today.AddDays(1)), (await Show(who, First, who.Book.Today.AddDays(1))).Failure);
    }

    [Fact]
    public async Task A_receipt_taken_back_money_given_back_and_a_credit_note_are_told_too()
    {
        await using var who = await Debtor.With(server, 60, 30);
        void Later() => who.Book.Clock.Advance(TimeSpan.FromMinutes(1)); // lines of a day stand in the order they were recorded
        var wrong = MoneyBook.Done(await who.Receive(who.Money(100, 72.60m)));
        Later();
        MoneyBook.Done(await who.TakeBack(wrong));
        Later();
        MoneyBook.Done(await who.Receive(who.Money(50)));
        Later();
        MoneyBook.Done(await who.PayBack(10));
        Later();
        MoneyBook.Done(await JournalTests.Pay(who.Book, who.Invoices[0], 72.60m));
        Later();
        MoneyBook.Done(await who.Book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(who.Invoices[0], "Wrong address", false, Ct)));
        var facts = MoneyBook.Done(await Show(who, First, null)).Facts;
        Assert.Equal(
            [StatementLineKind.Invoice, StatementLineKind.Invoice, StatementLineKind.Payment, StatementLineKind.PaymentTakenBack, StatementLineKind.Payment,
                StatementLineKind.GivenBack, StatementLineKind.Payment, StatementLineKind.CreditNote], facts.Lines.Select(line => line.Kind));
        Assert.Equal((36.30m, 40m, 72.60m, -76.30m), (facts.Ages.Together, facts.Credit, facts.ToGiveBack, facts.Closing));
    }

    [Fact]
    public async Task The_paper_is_frozen_numbered_without_gaps_and_goes_out_with_its_letter_or_not_at_all()
    {
        await using var who = await Busy(server);
        Task<Result<IssuedPaper>> Make(DateOnly until, bool byMail) =>
            who.Book.Do<StatementService, Result<IssuedPaper>>(service => service.MakeAsync(who.Customer, First, until, byMail, Ct));
        Assert.IsType<StatementInFuture>((await Make(who.Book.Today.AddDays(1), true)).Failure);
        var paper = MoneyBook.Done(await Make(who.Book.Today, true));
        Assert.Equal("S-2026-0001", paper.Number);
        var mail = await who.Book.Db(db => db.Outbox.SingleAsync(row => row.Kind == Domain.Post.MailKind.Statement, Ct));
        Assert.Equal((paper.Id, null, "Statement S-2026-0001"), (mail.PaperIds.Single(), mail.RepairId, mail.Subject));
        Assert.DoesNotContain("{", mail.Body);
        MoneyBook.Done(await JournalTests.Pay(who.Book, who.Invoices[2], 11.30m));
        var kept = (StatementFacts)MoneyBook.Done(await who.Book.Do<PaperService, Result<PaperPage>>(service => service.ReadAsync(paper.Id, Ct))).Facts;
        Assert.Equal(-0.90m, kept.Closing);
        Assert.Equal("%PDF"u8.ToArray(), MoneyBook.Done(await who.Book.Do<PaperService, Result<PaperFile>>(service => service.OpenAsync(paper.Id, Ct))).Bytes[..4]);
        await who.Book.Db(db => db.Customers.Where(row => row.Id == who.Customer).ExecuteUpdateAsync(set => set.SetProperty(row => row.Email, ""), Ct));
        Assert.False((await Make(who.Book.Today, true)).IsDone);
        Assert.Equal("S-2026-0002", MoneyBook.Done(await Make(who.Book.Today, false)).Number);
    }

    [Fact]
    public async Task The_very_first_day_of_the_calendar_may_be_the_last_of_a_statement()
    {
        await using var who = await Debtor.With(server, 60);
        Assert.Equal(0, MoneyBook.Done(await Show(who, null, DateOnly.MinValue)).Facts.Closing);
    }
}
