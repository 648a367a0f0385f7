using Microsoft.EntityFrameworkCore;
using Npgsql;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Post;
using RepairShop.Domain.Reminders;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Reminders;
using RepairShop.Services.Reports;
using RepairShop.Services.Tests.Invoices;
using RepairShop.Services.Tests.Ledger;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Reminders;

/// <summary>Invoices of 72.60 and 36.30 of 24 and 25 November 2026, due on 8 and 9 December; the clock stands on 16 December, when the
/// first step of both is due.</summary>
public sealed class ReminderTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    private static async Task<Debtor> Late(PostgresServer server)
    {
        var who = await Debtor.With(server, 60, 30);
        who.Book.Clock.Advance(TimeSpan.FromDays(20));
        Assert.Equal(new DateOnly(2026, 12, 16), who.Book.Today);
        return who;
    }

    private static Task<ReminderDesk> Desk(Debtor who) => who.Book.Do<ReminderListService, ReminderDesk>(service => service.DeskAsync(Ct));

    private static Task<Result<SentLetters>> Send(Debtor who, int step, params int[] invoices) => who.Book.Do<ReminderSendService, Result<SentLetters>>(
        service => service.SendAsync([.. invoices.Select(index => new TickedReminder(who.Invoices[index], step))], Ct));

    private static Task<Result> Hold(Debtor who, int days, string reason = "Says the meter still sticks") => who.Book.Do<ReminderHoldService, Result>(
        service => service.HoldAsync(who.Invoices[0], who.Book.Today.AddDays(days), reason, Ct));

    private static Task<int> Change(Debtor who, string email) => who.Book.Db(db => db.Customers.Where(row => row.Id == who.Customer)
        .ExecuteUpdateAsync(set => set.SetProperty(row => row.Email, email), Ct));

    private static Task Fees(Debtor who) => who.Book.Db(async db =>
    {
        (await db.Shop.SingleAsync(Ct)).ReminderFees = true;
        (await db.ReminderSteps.SingleAsync(row => row.Number == 1, Ct)).Fee = 5;
        await db.SaveChangesAsync(Ct);
    });

    private static async Task<ReminderFacts> Facts(Debtor who) => (ReminderFacts)MoneyBook.Done(await who.Book.Do<PaperService, Result<PaperPage>>(
        async service => await service.ReadAsync(await who.Book.Db(db => db.ReminderLetters.OrderByDescending(row => row.Id).Select(row => row.PaperId).FirstAsync(Ct)), Ct))).Facts;

    [Fact]
    public async Task What_is_late_is_proposed_and_nothing_leaves_without_a_click()
    {
        await using var who = await Late(server);
        var desk = await Desk(who);
        Assert.Equal(
            [("I-2026-0001", 72.60m, 8, 1, "Friendly note", "lukasz@example.com"), ("I-2026-0002", 36.30m, 7, 1, "Friendly note", "lukasz@example.com")],
            desk.Due.Select(row => (row.Number, row.Open, row.DaysLate, row.Step, row.Title, row.Email)));
        Assert.Empty(desk.Sent);
        Assert.Equal((0, 0), (await who.Book.Db(db => db.Outbox.CountAsync(row => row.Kind == MailKind.Reminder, Ct)), await who.Book.Db(db => db.ReminderLetters.CountAsync(Ct))));
        Assert.IsType<NothingTicked>((await Send(who, 1)).Failure);
    }

    [Fact]
    public async Task Several_invoices_of_a_customer_are_one_letter_frozen_with_its_bytes_and_sent_with_them()
    {
        await using var who = await Late(server);
        MoneyBook.Done(await JournalTests.Pay(who.Book, who.Invoices[0], 22.60m));
        Assert.Equal((1, 0), (MoneyBook.Done(await Send(who, 1, 0, 1)) is var sent ? (sent.ByMail, sent.ToPrint.Count) : default));
        var facts = await Facts(who);
        Assert.Equal(("R-2026-0001", 86.30m, 86.30m, new DateOnly(2026, 12, 26), null), (facts.PaperNumber, facts.Due, facts.Total, facts.PayBy, facts.PaymentReference));
        Assert.Equal(
            [
                new ReminderLineFacts("I-2026-0001", new(2026, 11, 24), new(2026, 12, 8), 72.60m, 22.60m, 0, 0, 50, 8),
                new ReminderLineFacts("I-2026-0002", new(2026, 11, 25), new(2026, 12, 9), 36.30m, 0, 0, 0, 36.30m, 7),
            ], facts.Lines);
        Assert.Contains("Łukasz Example", facts.Text);
        Assert.Contains("86.30", facts.Text);
        Assert.DoesNotContain("{", facts.Text);
        var mail = await who.Book.Db(db => db.Outbox.SingleAsync(row => row.Kind == MailKind.Reminder, Ct));
        Assert.Equal(("Friendly note: R-2026-0001", "lukasz@example.com", null), (mail.Subject, mail.ToAddress, mail.RepairId));
        Assert.DoesNotContain("{", mail.Body);
        // Paid after it was sent: the paper stays what it was, byte for byte.
        var before = MoneyBook.Done(await who.Book.Do<PaperService, Result<PaperFile>>(service => service.OpenAsync(mail.PaperIds.Single(), Ct)));
        MoneyBook.Done(await JournalTests.Pay(who.Book, who.Invoices[0], 50));
        var after = MoneyBook.Done(await who.Book.Do<PaperService, Result<PaperFile>>(service => service.OpenAsync(mail.PaperIds.Single(), Ct)));
        Assert.Equal((before.Hash, before.Hash), (after.Hash, Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(after.Bytes))));
        Assert.Equal("reminder-r-2026-0001.pdf", after.FileName);
        var row = Assert.Single((await Desk(who)).Sent);
        Assert.Equal(("R-2026-0001", "Friendly note", 86.30m, true, "Ada Sample"), (row.Number, row.Title, row.Due, row.ByMail, row.By));
        Assert.Equal(["I-2026-0001", "I-2026-0002"], row.Invoices);
    }

    [Fact]
    public async Task One_invoice_alone_in_euro_has_its_structured_reference()
    {
        await using var who = await Late(server);
        await who.Book.Db(db => db.Shop.ExecuteUpdateAsync(set => set.SetProperty(row => row.Iban, "BE68539007547034"), Ct));
        MoneyBook.Done(await Send(who, 1, 0));
        Assert.Equal(Domain.Shop.CreditorReference.Of("I-2026-0001"), (await Facts(who)).PaymentReference);
    }

    [Fact]
    public async Task Two_people_clicking_at_once_send_one_letter()
    {
        await using var who = await Late(server);
        var results = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Send(who, 1, 0, 1)));
        Assert.Single(results, result => result.IsDone);
        Assert.All(results.Where(result => !result.IsDone), result => Assert.True(result.Failure is RemindedToday or ReminderSentAlready, result.Failure!.Message));
        Assert.Equal((1, 2, 1), (
            await who.Book.Db(db => db.ReminderLetters.CountAsync(Ct)), await who.Book.Db(db => db.Reminders.CountAsync(Ct)),
            await who.Book.Db(db => db.Papers.CountAsync(row => row.Kind == PaperKind.Reminder, Ct))));
        // Those refused took no number with them.
        who.Book.Clock.Advance(TimeSpan.FromDays(20));
        MoneyBook.Done(await Send(who, 2, 0));
        Assert.Equal("R-2027-0001", (await Facts(who)).PaperNumber);
    }

    [Fact]
    public async Task Money_and_reminders_at_once_never_leave_a_letter_that_names_more_than_was_owed()
    {
        await using var who = await Late(server);
        var pay = JournalTests.Pay(who.Book, who.Invoices[0], 72.60m);
        var send = Send(who, 1, 0);
        MoneyBook.Done(await pay);
        var sent = await send;
        Assert.True(sent.IsDone ? (await Facts(who)).Due == 72.60m : sent.Failure is NothingToRemind or CustomerHasMoneyHere, sent.Failure?.Message);
    }

    [Fact]
    public async Task The_database_itself_keeps_steps_in_order_one_of_each_and_at_what_is_owed()
    {
        await using var who = await Late(server);
        MoneyBook.Done(await Send(who, 1, 0));
        var letter = await who.Book.Db(db => db.ReminderLetters.SingleAsync(Ct));
        async Task<string?> Refusal(int invoice, int step, decimal due, int day) =>
            ((PostgresException)(await Assert.ThrowsAsync<DbUpdateException>(() => who.Book.Db(async db =>
            {
                db.Reminders.Add(new Reminder { LetterId = letter.Id, InvoiceId = who.Invoices[invoice], Step = step, Title = "x", SentOn = letter.SentOn.AddDays(day), Due = due });
                await db.SaveChangesAsync(Ct);
            }))).InnerException!).ConstraintName;
        Assert.Equal("ux_reminders_step", await Refusal(0, 1, 72.60m, 1));
        Assert.Equal("ux_reminders_day", await Refusal(0, 2, 72.60m, 0));
        Assert.Equal("reminder_steps_in_order", await Refusal(0, 3, 72.60m, 1));
        Assert.Equal("reminder_steps_in_order", await Refusal(1, 2, 36.30m, 0));
        Assert.Equal("reminder_names_what_is_owed", await Refusal(1, 1, 36.31m, 0));
        foreach (var statement in (string[])["delete from reminders", "update reminders set due = 1", "truncate reminders", "delete from reminder_letters", "update reminder_letters set fee = 9", "delete from papers"])
            await Assert.ThrowsAsync<PostgresException>(() => who.Book.Db(db => db.Database.ExecuteSqlRawAsync(statement, Ct)));
    }

    [Fact]
    public async Task The_second_step_comes_after_the_day_the_first_letter_named_and_an_old_page_can_not_send_it()
    {
        await using var who = await Late(server);
        MoneyBook.Done(await Send(who, 1, 0));
        Assert.IsType<RemindedToday>((await Desk(who)).Waiting.Single(row => row.Number == "I-2026-0001").Why);
        who.Book.Clock.Advance(TimeSpan.FromDays(12));
        Assert.Equal(new ReminderNotYet("I-2026-0001", new(2026, 12, 29)), (await Send(who, 2, 0)).Failure);
        who.Book.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Equal(new ReminderStepChanged("I-2026-0001"), (await Send(who, 1, 0)).Failure);
        // One letter takes the furthest step's words for both.
        MoneyBook.Done(await who.Book.Do<ReminderSendService, Result<SentLetters>>(
            service => service.SendAsync([new TickedReminder(who.Invoices[0], 2), new TickedReminder(who.Invoices[1], 1)], Ct)));
        Assert.Equal(("Second reminder", 2), ((await Facts(who)).Title, (await Facts(who)).Lines.Count));
        var kept = await who.Book.Do<ReminderListService, IReadOnlyDictionary<Guid, InvoiceReminders>>(service => service.OfRepairAsync("2026-0001", Ct));
        Assert.Equal([(1, "R-2026-0001"), (2, "R-2026-0002")], kept[who.Invoices[0]].Sent.Select(one => (one.Step, one.PaperNumber)));
    }

    [Fact]
    public async Task Credited_written_off_or_paid_it_is_not_late_any_more()
    {
        await using var who = await Late(server);
        MoneyBook.Done(await who.Book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(who.Invoices[0], "Wrong address", false, Ct)));
        MoneyBook.Done(await who.Book.Do<WriteOffService, Result>(service => service.WriteOffAsync(who.Invoices[1], 36.30m, "Moved away", Guid.NewGuid(), Ct)));
        Assert.Empty((await Desk(who)).Due);
        Assert.Equal(new NothingToRemind("I-2026-0001"), (await Send(who, 1, 0)).Failure);
        Assert.Equal(new NothingToRemind("I-2026-0002"), (await Send(who, 1, 1)).Failure);
    }

    [Fact]
    public async Task A_hold_a_spared_customer_and_money_held_for_them_keep_reminders_back()
    {
        await using var who = await Late(server);
        MoneyBook.Done(await Hold(who, 5));
        Assert.Equal("I-2026-0001", Assert.Single((await Desk(who)).OnHold).Number);
        Assert.IsType<ReminderOnHold>((await Send(who, 1, 0, 1)).Failure);
        Assert.Equal(0, await who.Book.Db(db => db.ReminderLetters.CountAsync(Ct))); // all of them or none
        MoneyBook.Done(await who.Book.Do<ReminderHoldService, Result>(service => service.LiftAsync(who.Invoices[0], Ct)));
        Assert.Equal(new NothingOnHold("I-2026-0001"), (await who.Book.Do<ReminderHoldService, Result>(service => service.LiftAsync(who.Invoices[0], Ct))).Failure);
        Assert.Equal(2, (await Desk(who)).Due.Count);
        await Assert.ThrowsAsync<PostgresException>(() => who.Book.Db(db => db.Database.ExecuteSqlRawAsync("delete from reminder_holds", Ct)));

        MoneyBook.Done(await who.Receive(who.Money(12)));
        Assert.Equal(new CustomerHasMoneyHere("Łukasz Example", 12, "EUR"), (await Send(who, 1, 0)).Failure);
        MoneyBook.Done(await who.UseCredit(0, 12));
        await who.Book.Db(db => db.Customers.ExecuteUpdateAsync(set => set.SetProperty(row => row.NoReminders, true), Ct));
        Assert.Equal(new CustomerNotReminded("Łukasz Example"), (await Send(who, 1, 0)).Failure);
    }

    [Fact]
    public async Task Without_an_address_for_mail_it_is_printed_and_marked_as_posted_once()
    {
        await using var who = await Late(server);
        await Change(who, "");
        var sent = MoneyBook.Done(await Send(who, 1, 0));
        Assert.Equal((0, 1), (sent.ByMail, sent.ToPrint.Count));
        Assert.False(await who.Book.Db(db => db.Outbox.AnyAsync(row => row.Kind == MailKind.Reminder, Ct)));
        var letter = Assert.Single((await Desk(who)).Sent);
        Task<Result> Posted() => who.Book.Do<ReminderSendService, Result>(service => service.PostedAsync(letter.Id, Ct));
        MoneyBook.Done(await Posted());
        var at = (await Desk(who)).Sent[0].PostedAt;
        who.Book.Clock.Advance(TimeSpan.FromHours(1));
        MoneyBook.Done(await Posted());
        Assert.Equal((at, true), ((await Desk(who)).Sent[0].PostedAt, at is not null));
        await Assert.ThrowsAsync<PostgresException>(() => who.Book.Db(db => db.Database.ExecuteSqlRawAsync("update reminder_letters set posted_at = null, posted_by = null", Ct)));
        await Change(who, "lukasz@example.com");
        MoneyBook.Done(await Send(who, 1, 1));
        var mailed = (await Desk(who)).Sent[0];
        Assert.Equal(new ReminderWentByMail(mailed.Number), (await who.Book.Do<ReminderSendService, Result>(service => service.PostedAsync(mailed.Id, Ct))).Failure);
    }

    [Fact]
    public async Task A_fee_is_told_only_when_fees_are_on_booked_only_when_it_is_taken_and_taken_once()
    {
        await using var who = await Late(server);
        await who.Book.Db(db => db.ReminderSteps.ExecuteUpdateAsync(set => set.SetProperty(row => row.Fee, 5m), Ct));
        Assert.All((await Desk(who)).Due, row => Assert.Equal(0, row.Fee)); // off until the owner turns it on
        await Fees(who);
        MoneyBook.Done(await Send(who, 1, 0));
        Assert.Equal((72.60m, 5m, 77.60m), (await Facts(who)) is var facts ? (facts.Due, facts.Fee, facts.Total) : default);
        Assert.Equal([72.60m, 36.30m], await who.Owed()); // the invoice owes what it owed
        await who.JournalAgrees();

        var fee = Assert.Single(await who.Book.Do<ReminderFeeService, List<OpenFee>>(service => service.OfAsync(who.Customer, Ct)));
        Task<Result> Take() => who.Book.Do<ReminderFeeService, Result>(service => service.TakeAsync(who.Customer, fee.LetterId, Guid.NewGuid(), Ct));
        Assert.Equal(new ReminderFeeAboveCredit(5, 0, "EUR"), (await Take()).Failure);
        MoneyBook.Done(await who.Receive(who.Money(87.60m, 72.60m)));
        var taken = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Take()));
        Assert.Single(taken, result => result.IsDone);
        Assert.All(taken.Where(result => !result.IsDone), result => Assert.Equal(new ReminderFeeTaken("R-2026-0001"), result.Failure));
        Assert.Equal(10m, await who.Credit());
        Assert.Equal(-5m, (await JournalTests.Balances(who.Book))[LedgerAccount.RevenueOther]);
        await who.JournalAgrees();
        var revenue = (await who.Book.Do<FigureService, Figure?>(service => service.OneAsync("revenue", new Period(2026, 12), FigureService.OnPage, Ct)))!.Rows.Single(row => row.Values[^1] == 5);
        var behind = (await who.Book.Do<FigureService, Figure?>(service => service.BehindAsync("revenue", new Period(2026, 12), revenue.Key, FigureService.OnPage, Ct)))!.Rows;
        Assert.Equal((5m, "Fee of R-2026-0001 · Łukasz Example", 5m), (revenue.Values[^1], Assert.Single(behind).Label, behind[0].Values[^1]));
        Assert.Equal(new ReminderFeeTaken("R-2026-0001"), (await who.Book.Do<ReminderFeeService, Result>(service => service.WaiveAsync(who.Customer, fee.LetterId, Ct))).Failure);

        // Taken by mistake: given back by a counter-entry, and open again.
        var entry = await who.Book.Db(db => db.CustomerCredits.SingleAsync(row => row.Kind == CreditKind.Fee, Ct));
        MoneyBook.Done(await who.Book.Do<ReceiptService, Result>(service => service.UndoAsync(who.Customer, entry.Id, Guid.NewGuid(), Ct)));
        Assert.Equal(15m, await who.Credit());
        MoneyBook.Done(await who.Book.Do<ReminderFeeService, Result>(service => service.WaiveAsync(who.Customer, fee.LetterId, Ct)));
        Assert.Equal(new ReminderFeeWaived("R-2026-0001"), (await Take()).Failure);
        Assert.Empty(await who.Book.Do<ReminderFeeService, List<OpenFee>>(service => service.OfAsync(who.Customer, Ct)));
        await who.JournalAgrees();
    }

    [Fact]
    public async Task A_later_letter_names_the_fee_of_the_earlier_one_while_it_is_open()
    {
        await using var who = await Late(server);
        await Fees(who);
        MoneyBook.Done(await Send(who, 1, 0));
        who.Book.Clock.Advance(TimeSpan.FromDays(14));
        var preview = MoneyBook.Done(await who.Book.Do<ReminderSendService, Result<ReminderPreview>>(service => service.PreviewAsync(who.Customer, "EUR", Ct))).Facts;
        MoneyBook.Done(await Send(who, 2, 0));
        var facts = await Facts(who);
        Assert.Equal([new ReminderFeeFacts("R-2026-0001", new(2026, 12, 16), 5)], facts.EarlierFees);
        Assert.Equal((0m, 77.60m), (facts.Fee, facts.Total));
        Assert.Equal((2, "Second reminder", 113.90m + 0), (preview.Lines.Count, preview.Title, preview.Total));
    }

    [Fact]
    public async Task Steps_are_the_owners_to_word_and_what_was_sent_keeps_its_words()
    {
        await using var who = await Late(server);
        MoneyBook.Done(await Send(who, 1, 0));
        var step = MoneyBook.Done(await who.Book.Do<ReminderStepService, Result<ReminderStep>>(service => service.FindAsync(1, Ct)));
        step.Text = "Hello {custmer}";
        Assert.Equal("Text", Assert.IsType<Domain.Shop.PlaceholderUnknown>((await Save()).Failure).Field);
        (step.Text, step.Title, step.DaysAfterDue) = ("Hello {customer}, {total} by {due}.", "A word", 9);
        MoneyBook.Done(await Save());
        step.Title = "Another word";
        Assert.IsType<ChangedMeanwhile>((await Save(-1)).Failure);
        Assert.Equal("Friendly note", (await Facts(who)).Title);
        Assert.Equal(4, MoneyBook.Done(await who.Book.Do<ReminderStepService, Result<int>>(service => service.AddAsync(Ct))));
        for (var left = 4; left > 1; left--)
            MoneyBook.Done(await who.Book.Do<ReminderStepService, Result>(service => service.RemoveLastAsync(Ct)));
        Assert.IsType<LastReminderStepStays>((await who.Book.Do<ReminderStepService, Result>(service => service.RemoveLastAsync(Ct))).Failure);
        who.Book.Clock.Advance(TimeSpan.FromDays(90));
        Assert.Equal(new RemindersUsedUp("I-2026-0001"), (await Send(who, 2, 0)).Failure);

        Task<Result> Save(int older = 0) => who.Book.Do<ReminderStepService, Result>(service =>
        {
            step.Version = (uint)(step.Version + older);
            return service.SaveAsync(step, Ct);
        });
    }
}
