using Microsoft.EntityFrameworkCore;
using Npgsql;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;
using RepairShop.Services.Banking;
using RepairShop.Services.Ledger;
using RepairShop.Services.Tests.Invoices;
using RepairShop.Testing;
using Xunit;
using static RepairShop.Testing.Banking.CamtFiles;

namespace RepairShop.Services.Tests.Banking;

/// <summary>Invoices of 72.60 and 145.20 of one customer, issued on 24 and 25 November 2026; a day of the bank's is the 24th.</summary>
public sealed class BankBookingTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    [Fact]
    public async Task Nothing_is_booked_before_the_click_and_then_once_on_the_banks_day()
    {
        await using var who = await Debtor.With(server, 60, 120);
        var id = await who.Book.Import(Paid("72.60", "Łukasz Example", "I-2026-0001", reference: "R1"));
        var line = await who.Book.Line(id);
        Assert.Equal((MatchState.ReferenceAndAmount, true), (line.Match!.State, line.Match.IsSure));
        Assert.Equal([MatchReasonKind.NumberInText, MatchReasonKind.NameSimilar], line.Match.Proposals[0].Reasons.Select(reason => reason.Kind));
        Assert.Equal([72.60m, 145.20m], await who.Owed());
        Assert.Null(await who.Book.BookFirst(line));
        Assert.Equal([0m, 145.20m], await who.Owed());
        var receipt = await who.Book.Db(db => db.Receipts.SingleAsync(Ct));
        Assert.Equal((line.Line.Id, new DateOnly(2026, 11, 24), PaymentMethod.BankTransfer, "I-2026-0001"), (receipt.BankLineId, receipt.PaidOn, receipt.Method, receipt.Reference));
        var booked = (await who.Book.Line(id)).Booked!;
        Assert.Equal((receipt.Id, "Łukasz Example", 0m, "Ada Sample"), (booked.Receipt, booked.CustomerName, booked.Kept, booked.By));
        Assert.Equal(new ShareView("I-2026-0001", "2026-0001", 72.60m, 0), Assert.Single(booked.Shares));
        Assert.IsType<BankLineBooked>(await who.Book.Book(line.Line.Id, who.Choice(0, 72.60m)));
        await who.JournalAgrees();
        Assert.Equal(1, await who.Book.Db(db => db.Audit.CountAsync(row => row.Entity == nameof(BankLine), Ct)));
    }

    [Fact]
    public async Task Sixty_four_clicks_on_one_line_for_one_customer_or_for_several_are_one_receipt()
    {
        await using var who = await Debtor.With(server, 60, 120);
        var others = new List<BookingChoice>();
        for (var i = 0; i < 12; i++)
            others.Add(new((await who.Book.Repair()).CustomerId, []));
        var id = await who.Book.Import(Paid("50.00", "X", "thanks"));
        var line = (await who.Book.Line(id)).Line.Id;
        BookingChoice[] choices = [who.Choice(50), who.Choice(0, 50), who.Choice(), .. others];
        var outcomes = await Task.WhenAll(Enumerable.Range(0, 64).Select(i => who.Book.Book(line, choices[i % choices.Length])));
        Assert.Single(outcomes, failure => failure is null);
        Assert.All(outcomes.OfType<Failure>(), failure => Assert.IsType<BankLineBooked>(failure));
        Assert.Equal((1, 50m), await who.Book.Db(async db => (await db.Receipts.CountAsync(Ct), await db.Receipts.SumAsync(row => row.Amount, Ct))));
    }

    [Fact]
    public async Task The_same_form_sent_many_times_at_once_says_each_time_that_it_is_booked()
    {
        await using var who = await Debtor.With(server, 60);
        var id = await who.Book.Import(Paid("72.60", "X", "I-2026-0001"));
        var line = (await who.Book.Line(id)).Line.Id;
        var form = Guid.NewGuid();
        Assert.All(await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => who.Book.Book(line, who.Choice(72.60m), form))), Assert.Null);
        Assert.Equal(1, await who.Book.Db(db => db.Receipts.CountAsync(Ct)));
    }

    [Fact]
    public async Task Several_invoices_are_paid_at_once_and_what_is_over_becomes_credit()
    {
        await using var who = await Debtor.With(server, 60, 120);
        var id = await who.Book.Import(Paid("220.00", "X", "I-2026-0002 + I-2026-0001"));
        var line = await who.Book.Line(id);
        Assert.Equal((MatchState.ReferenceAndMore, 2.20m), (line.Match!.State, line.Match.Proposals[0].Rest));
        Assert.Null(await who.Book.BookFirst(line));
        Assert.Equal([0m, 0m], await who.Owed());
        Assert.Equal((2.20m, 2.20m), (await who.Credit(), (await who.Book.Line(id)).Booked!.Kept));
        await who.JournalAgrees();
    }

    [Fact]
    public async Task Of_several_ticked_lines_one_that_is_refused_does_not_hold_up_the_others()
    {
        await using var who = await Debtor.With(server, 60, 120);
        var id = await who.Book.Import(Paid("72.60", "X", "I-2026-0001"), Paid("145.20", "X", "I-2026-0002"));
        MoneyBook.Done(await who.Receive(who.Money(70, 70))); // meanwhile, at the counter
        var lines = (await who.Book.Statement(id)).Lines;
        var outcomes = await who.Book.Do<BankBookingService, IReadOnlyList<BookingOutcome>>(service => service.BookAsync(
            [new(lines[0].Line.Id, who.Choice(72.60m), Guid.NewGuid()), new(Guid.NewGuid(), who.Choice(1), Guid.NewGuid()), new(lines[1].Line.Id, who.Choice(0, 145.20m), Guid.NewGuid())], Ct));
        Assert.Equal([new ShareAboveOwed(0, "I-2026-0001", 72.60m, 2.60m, "EUR"), new BankLineNotFound(), null], outcomes.Select(outcome => outcome.Refused));
        Assert.Equal([2.60m, 0m], await who.Owed());
        await who.JournalAgrees();
    }

    [Fact]
    public async Task Undoing_the_receipt_frees_the_line_wherever_it_is_undone()
    {
        await using var who = await Debtor.With(server, 60);
        var id = await who.Book.Import(Paid("72.60", "X", "I-2026-0001", iban: Theirs));
        for (var round = 0; round < 2; round++)
        {
            var line = await who.Book.Line(id);
            Assert.Null(await who.Book.BookFirst(line));
            var receipt = (await who.Book.Line(id)).Booked!.Receipt;
            MoneyBook.Done(round == 0
                ? await who.TakeBack(receipt)
                : await who.Book.Do<BankBookingService, Result>(service => service.UndoAsync(line.Line.Id, receipt, Guid.NewGuid(), Ct)));
            Assert.Equal((LineState.Waiting, 72.60m), ((await who.Book.Line(id)).State, (await who.Owed())[0]));
        }

        Assert.Equal((2, 2), await who.Book.Db(async db => (await db.Receipts.CountAsync(row => row.BankLineId != null, Ct), await db.Receipts.CountAsync(row => row.BankLineId == null, Ct))));
        await who.JournalAgrees();
    }

    [Fact]
    public async Task A_line_is_set_aside_with_a_reason_and_taken_up_again()
    {
        await using var who = await Debtor.With(server, 60);
        var id = await who.Book.Import(Paid("72.60", "X", "I-2026-0001"));
        var line = (await who.Book.Line(id)).Line.Id;
        Task<Result> Aside(string reason) => who.Book.Do<BankBookingService, Result>(service => service.SetAsideAsync(line, reason, Ct));
        Task<Result> Up() => who.Book.Do<BankBookingService, Result>(service => service.TakeUpAsync(line, Ct));
        Assert.IsType<SetAsideReasonMissing>((await Aside(" ")).Failure);
        Assert.IsType<BankLineMoved>((await Up()).Failure);
        var asides = await Task.WhenAll(Enumerable.Range(0, 8).Select(i => Aside($"Own transfer {i}")));
        Assert.Single(asides, done => done.IsDone);
        Assert.All(asides.Where(done => !done.IsDone), done => Assert.IsType<BankLineMoved>(done.Failure));
        Assert.Equal((LineState.Aside, "Own transfer"), ((await who.Book.Line(id)).State, (await who.Book.Line(id)).AsideReason[..12]));
        Assert.IsType<BankLineSetAside>(await who.Book.Book(line, who.Choice(72.60m)));
        MoneyBook.Done(await Up());
        Assert.Null(await who.Book.Book(line, who.Choice(72.60m)));
        Assert.IsType<BankLineBooked>((await Aside("too late")).Failure);
    }

    [Fact]
    public async Task Setting_aside_and_booking_at_once_leave_one_of_them()
    {
        await using var who = await Debtor.With(server, 60);
        var id = await who.Book.Import([.. Enumerable.Range(0, 8).Select(i => Paid("1.00", "X", $"{i}"))]);
        foreach (var line in (await who.Book.Statement(id)).Lines.Select(line => line.Line.Id))
        {
            var aside = who.Book.Do<BankBookingService, Result>(service => service.SetAsideAsync(line, "not ours", Ct));
            var booked = who.Book.Book(line, who.Choice(1));
            Assert.NotEqual((await aside).IsDone, await booked is null);
        }
    }

    [Fact]
    public async Task An_account_seen_on_a_booked_line_is_a_hint_for_the_next()
    {
        await using var who = await Debtor.With(server, 60, 120);
        var first = await who.Book.Import(Paid("72.60", "A. N. Other", "I-2026-0001", iban: "NL20INGB0001234567"));
        Assert.Null(await who.Book.BookFirst(await who.Book.Line(first)));
        var second = await who.Book.Line(await who.Book.Import(Paid("145.20", "A. N. Other", "thanks", iban: "NL20INGB0001234567")));
        Assert.Equal(MatchState.AmountAlone, second.Match!.State);
        Assert.Equal([MatchReasonKind.AmountOwed, MatchReasonKind.AccountSeen], second.Match.Proposals[0].Reasons.Select(reason => reason.Kind));
        var third = await who.Book.Line(await who.Book.Import(Paid("72.60", "Nobody", "I-2026-0001 again", iban: Theirs)));
        Assert.Equal(["I-2026-0001"], third.Match!.Settled);
    }

    [Fact]
    public async Task A_line_in_a_closed_month_is_refused_by_the_month()
    {
        await using var who = await Debtor.With(server, 60);
        var id = await who.Book.Import(Paid("72.60", "X", "I-2026-0001", day: "2026-10-31"));
        MoneyBook.Done(await who.Book.Do<LedgerService, Result>(service => service.CloseAsync(new DateOnly(2026, 10, 1), Ct)));
        Assert.Equal(new BankLineInClosedMonth(new DateOnly(2026, 10, 31)), await who.Book.BookFirst(await who.Book.Line(id)));
        Assert.Equal(LineState.Waiting, (await who.Book.Line(id)).State);
    }

    [Fact]
    public async Task The_database_itself_refuses_a_second_receipt_another_amount_and_every_change()
    {
        await using var who = await Debtor.With(server, 60);
        var id = await who.Book.Import(Paid("72.60", "X", "I-2026-0001"), Paid("5.00", "X", "y"));
        var lines = (await who.Book.Statement(id)).Lines.Select(line => line.Line.Id).ToList();
        Assert.Null(await who.Book.Book(lines[0], who.Choice(72.60m)));
        async Task Refused(string constraint, FormattableString sql) => Assert.Equal(
            constraint, (await Assert.ThrowsAsync<PostgresException>(() => who.Book.Db(db => db.Database.ExecuteSqlInterpolatedAsync(sql, Ct)))).ConstraintName);
        FormattableString Receipt(Guid line, decimal amount) => $"""
            insert into receipts (id, customer_id, currency, amount, method, reference, paid_on, recorded_at, recorded_by, form_key, bank_line_id)
            values (gen_random_uuid(), {who.Customer}, 'EUR', {amount}, 'BankTransfer', '', '2026-11-24', now(), gen_random_uuid(), gen_random_uuid(), {line})
            """;
        await Refused("bank_line_booked_once", Receipt(lines[0], 72.60m));
        await Refused("receipt_is_as_bank_line", Receipt(lines[1], 5.01m));
        await Refused("receipt_adds_up", Receipt(lines[1], 5));
        await Refused("append_only_bank_lines", $"update bank_lines set amount = 5");
        await Refused("append_only_bank_statements", $"delete from bank_statements");
        await Refused("append_only_bank_line_notes", $"truncate bank_line_notes");
        await Refused("ux_bank_line_notes_number", $"insert into bank_line_notes (id, line_id, number, reason, at, by) values (gen_random_uuid(), {lines[1]}, 2, '', now(), gen_random_uuid())");
        await Refused("bank_line_booked_once", $"insert into bank_line_notes (id, line_id, number, reason, at, by) values (gen_random_uuid(), {lines[0]}, 1, 'x', now(), gen_random_uuid())");
    }

    [Fact]
    public void A_choice_is_read_back_as_it_was_written_and_nothing_else_is_one()
    {
        var choice = new BookingChoice(Guid.NewGuid(), [new ReceiptShare(Guid.NewGuid(), 72.60m), new ReceiptShare(Guid.NewGuid(), 0.01m)]);
        var read = BookingChoice.Read(choice.ToString())!;
        Assert.Equal((choice.Customer, string.Join(',', choice.Shares)), (read.Customer, string.Join(',', read.Shares)));
        Assert.Empty(BookingChoice.Read(new BookingChoice(Guid.NewGuid(), []).ToString())!.Shares);
        foreach (var odd in new[] { null, "", "x", $"{Guid.NewGuid():N}_", $"{Guid.NewGuid():N}_{Guid.NewGuid():N}-1e9", $"{Guid.NewGuid():N}_{Guid.NewGuid():N}--1" })
            Assert.Null(BookingChoice.Read(odd));
    }
}
