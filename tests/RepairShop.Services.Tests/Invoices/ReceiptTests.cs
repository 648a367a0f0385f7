using Microsoft.EntityFrameworkCore;
using Npgsql;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Reports;
using RepairShop.Services.Tests.Ledger;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Invoices;

/// <summary>Invoices of 72.60, 145.20 and 36.30.</summary>
public sealed class ReceiptTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    [Fact]
    public async Task One_transfer_pays_several_invoices_and_the_rest_is_credit()
    {
        await using var who = await Debtor.With(server, 60, 120, 30);
        MoneyBook.Done(await who.Receive(who.Money(250, 72.60m, 145.20m)));
        Assert.Equal([0m, 0m, 36.30m], await who.Owed());
        Assert.Equal(32.20m, await who.Credit());
        Assert.Equal(
            new Dictionary<LedgerAccount, decimal>
            {
                [LedgerAccount.Receivables] = 36.30m,
                [LedgerAccount.Bank] = 250,
                [LedgerAccount.CustomerCredit] = -32.20m,
                [LedgerAccount.RevenueLabour] = -210,
                [LedgerAccount.Tax] = -44.10m,
            }, await JournalTests.Balances(who.Book));
        MoneyBook.Done(await who.UseCredit(2, 32.20m));
        Assert.Equal((4.10m, 0m), ((await who.Owed())[2], await who.Credit()));
        await who.JournalAgrees();
    }

    [Fact]
    public async Task A_share_may_be_all_that_is_owed_and_not_a_cent_more_and_nothing_is_recorded_of_a_refused_receipt()
    {
        await using var who = await Debtor.With(server, 60, 120);
        Assert.Equal(new ShareAboveOwed(1, "I-2026-0002", 145.21m, 145.20m, "EUR"), (await who.Receive(who.Money(300, 72.60m, 145.21m))).Failure);
        Assert.Equal(new SharedAboveReceived(217.80m, 217.79m, "EUR"), (await who.Receive(who.Money(217.79m, 72.60m, 145.20m))).Failure);
        Assert.Equal(new RestNotShared(0.01m, "EUR"), (await who.Receive(who.Money(217.81m, 72.60m, 145.20m) with { KeepsRest = false })).Failure);
        Assert.Equal(new PaymentNotPositive(0), (await who.Receive(who.Money(0))).Failure);
        Assert.Equal(new TooManyDecimals(1.005m, "EUR", 2), (await who.Receive(who.Money(1.005m))).Failure);
        Assert.Equal(new PaidInFuture(who.Book.Today.AddDays(1)), (await who.Receive(who.Money(5) with { PaidOn = who.Book.Today.AddDays(1) })).Failure);
        Assert.Equal(new InvoiceInOtherCurrency(0, "I-2026-0001", "EUR", "CHF"), (await who.Receive(who.Money(5, 5) with { Currency = "CHF" })).Failure);
        Assert.Equal(
            new SharedTwice(1, "I-2026-0001"), (await who.Receive(who.Money(10, 5) with { Shares = [new(who.Invoices[0], 5), new(who.Invoices[0], 5)] })).Failure);
        Assert.Equal((0, 0), await who.Book.Db(async db => (await db.Receipts.CountAsync(Ct), await db.Payments.CountAsync(Ct))));
        MoneyBook.Done(await who.Receive(who.Money(217.80m, 72.60m, 145.20m) with { KeepsRest = false }));
        Assert.Equal([0m, 0m], await who.Owed());
    }

    [Fact]
    public async Task Another_customers_invoice_is_not_paid_by_it()
    {
        await using var who = await Debtor.With(server, 60);
        var other = await JournalTests.Issued(who.Book);
        Assert.IsType<NoSuchInvoice>((await who.Receive(who.Money(10) with { Shares = [new(other, 10)] })).Failure);
        Assert.IsType<NoSuchInvoice>((await who.Receive(who.Money(10) with { Shares = [new(Guid.NewGuid(), 10)] })).Failure);
    }

    [Fact]
    public async Task The_same_form_sent_many_times_at_once_is_one_receipt_and_says_its_id_each_time()
    {
        await using var who = await Debtor.With(server, 60, 120);
        var form = who.Money(300, 72.60m, 145.20m);
        var ids = (await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => who.Receive(form)))).Select(result => MoneyBook.Done(result)).ToList();
        Assert.Single(ids.Distinct());
        Assert.Equal((1, 82.20m), (await who.Book.Db(db => db.Receipts.CountAsync(Ct)), await who.Credit()));
    }

    [Fact]
    public async Task Two_people_recording_money_for_the_same_invoices_in_either_order_can_not_pay_them_twice()
    {
        await using var who = await Debtor.With(server, 60, 120);
        var there = who.Money(217.80m, 72.60m, 145.20m);
        var back = there with { Shares = [.. there.Shares.Reverse()] };
        var results = await Task.WhenAll(Enumerable.Range(0, 8).Select(trial =>
            trial == 7 ? JournalTests.Pay(who.Book, who.Invoices[1], 145.20m).ContinueWith(paid => (Result<Guid>)(paid.Result.Failure is { } failure ? failure : Guid.Empty), TaskScheduler.Default)
            : who.Receive((trial % 2 == 0 ? there : back) with { FormKey = Guid.NewGuid() })));
        Assert.InRange(results.Count(result => result.IsDone), 1, 1);
        Assert.All(await who.Owed(), owed => Assert.True(owed >= 0));
        await who.JournalAgrees();
    }

    [Fact]
    public async Task The_same_credit_is_not_used_twice_by_people_at_once()
    {
        await using var who = await Debtor.With(server, 60, 120);
        MoneyBook.Done(await who.Receive(who.Money(50)));
        var results = await Task.WhenAll(Enumerable.Range(0, 6).Select(trial => trial % 3 == 0 ? who.PayBack(50) : who.UseCredit(trial % 2, 50)));
        Assert.Single(results, result => result.IsDone);
        Assert.All(results.Where(result => !result.IsDone), result => Assert.Equal(new CreditTooSmall(50, 0, "EUR"), result.Failure));
        Assert.Equal(0, await who.Credit());
        await who.JournalAgrees();
    }

    [Fact]
    public async Task A_receipt_entered_by_mistake_is_taken_back_whole_once_its_credit_is_free()
    {
        await using var who = await Debtor.With(server, 60, 120, 30);
        var id = MoneyBook.Done(await who.Receive(who.Money(250, 72.60m, 145.20m)));
        MoneyBook.Done(await who.UseCredit(2, 20));
        Assert.Equal(new CreditOfReceiptUsed(32.20m, 12.20m, "EUR"), (await who.TakeBack(id)).Failure);
        var used = await who.Book.Db(db => db.Payments.SingleAsync(row => row.Method == PaymentMethod.CustomerCredit, Ct));
        MoneyBook.Done(await who.Book.Do<PaymentService, Result>(service => service.TakeBackAsync(who.Invoices[2], used.Id, Guid.NewGuid(), Ct)));
        Assert.Equal(32.20m, await who.Credit());
        var form = Guid.NewGuid();
        var results = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => who.TakeBack(id, form)));
        Assert.All(results, result => MoneyBook.Done(result));
        Assert.IsType<ReceiptTakenBackAlready>((await who.TakeBack(id)).Failure);
        Assert.Equal([72.60m, 145.20m, 36.30m], await who.Owed());
        Assert.Equal(0, await who.Credit());
        Assert.False((await JournalTests.Balances(who.Book)).ContainsKey(LedgerAccount.Bank));
        await who.JournalAgrees();
        var counter = await who.Book.Db(db => db.Receipts.SingleAsync(row => row.TakesBackId == id, Ct));
        Assert.IsType<TakeBackOfTakeBack>((await who.TakeBack(counter.Id)).Failure);
    }

    [Fact]
    public async Task A_share_is_not_taken_back_alone()
    {
        await using var who = await Debtor.With(server, 60, 120);
        MoneyBook.Done(await who.Receive(who.Money(217.80m, 72.60m, 145.20m)));
        var share = await who.Book.Db(db => db.Payments.SingleAsync(row => row.InvoiceId == who.Invoices[0], Ct));
        Assert.IsType<PaymentOfReceipt>(
            (await who.Book.Do<PaymentService, Result>(service => service.TakeBackAsync(who.Invoices[0], share.Id, Guid.NewGuid(), Ct))).Failure);
    }

    [Fact]
    public async Task Credit_goes_back_as_money_up_to_its_last_cent_and_that_can_be_undone()
    {
        await using var who = await Debtor.With(server, 60);
        MoneyBook.Done(await who.Receive(who.Money(50)));
        Assert.Equal(new CreditTooSmall(50.01m, 50, "EUR"), (await who.PayBack(50.01m)).Failure);
        MoneyBook.Done(await who.PayBack(50));
        Assert.Equal(-50, (await JournalTests.Balances(who.Book))[LedgerAccount.Cash]);
        var entry = await who.Book.Db(db => db.CustomerCredits.SingleAsync(row => row.Kind == CreditKind.PaidBack, Ct));
        Task<Result> Undo(Guid id) => who.Book.Do<ReceiptService, Result>(service => service.UndoAsync(who.Customer, id, Guid.NewGuid(), Ct));
        MoneyBook.Done(await Undo(entry.Id));
        Assert.IsType<PaymentTakenBackAlready>((await Undo(entry.Id)).Failure);
        Assert.Equal(50, await who.Credit());
        var leftOver = await who.Book.Db(db => db.CustomerCredits.SingleAsync(row => row.Kind == CreditKind.LeftOver, Ct));
        Assert.IsType<CreditEntryOfOther>((await Undo(leftOver.Id)).Failure);
        await who.JournalAgrees();
    }

    [Fact]
    public async Task What_would_go_back_after_a_credit_note_can_be_kept_as_credit_and_pay_the_next_invoice()
    {
        await using var who = await Debtor.With(server, 60, 30);
        MoneyBook.Done(await JournalTests.Pay(who.Book, who.Invoices[0], 72.60m));
        MoneyBook.Done(await who.Book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(who.Invoices[0], "Wrong address", false, Ct)));
        MoneyBook.Done(await who.Book.Do<PaymentService, Result>(service => service.RefundAsync(
            who.Invoices[0], new TypedPayment(72.60m, PaymentMethod.CustomerCredit, "", who.Book.Today, Guid.NewGuid()), Ct)));
        Assert.Equal((0m, 72.60m), ((await who.Owed())[0], await who.Credit()));
        MoneyBook.Done(await who.UseCredit(1, 36.30m));
        Assert.Equal((0m, 36.30m), ((await who.Owed())[1], await who.Credit()));
        await who.JournalAgrees();
    }

    [Fact]
    public async Task Tax_by_day_of_payment_counts_credit_when_it_is_used_not_when_it_came()
    {
        await using var who = await Debtor.With(server, 60);
        async Task<decimal?> Tax() => (await who.Book.Do<FigureService, Figure?>(service => service.OneAsync("tax", new Period(2026, 11), FigureService.OnPage, Ct)))!.Rows.Single().Values[2];
        MoneyBook.Done(await who.Receive(who.Money(50)));
        Assert.Equal(0m, await Tax());
        MoneyBook.Done(await who.UseCredit(0, 36.30m)); // half
        Assert.Equal(6.30m, await Tax());
    }

    [Fact]
    public async Task The_database_itself_refuses_a_receipt_that_does_not_add_up_credit_below_zero_credit_without_its_other_side_and_every_change()
    {
        await using var who = await Debtor.With(server, 60);
        MoneyBook.Done(await who.Receive(who.Money(100, 72.60m)));
        var one = await who.Book.Db(db => db.Receipts.SingleAsync(Ct));
        async Task Refused(string constraint, FormattableString sql) => Assert.Equal(
            constraint, (await Assert.ThrowsAsync<PostgresException>(() => who.Book.Db(db => db.Database.ExecuteSqlInterpolatedAsync(sql, Ct)))).ConstraintName);
        await Refused("append_only_receipts", $"update receipts set amount = 5");
        await Refused("append_only_customer_credits", $"delete from customer_credits");
        await Refused("receipt_adds_up", $"""
            insert into receipts (id, customer_id, currency, amount, method, reference, paid_on, recorded_at, recorded_by, form_key)
            values (gen_random_uuid(), {who.Customer}, 'EUR', 5, 'Cash', '', current_date, now(), gen_random_uuid(), gen_random_uuid())
            """);
        await Refused("receipt_adds_up", $"""
            insert into payments (id, invoice_id, receipt_id, amount, method, reference, paid_on, recorded_at, recorded_by, form_key)
            values (gen_random_uuid(), {who.Invoices[0]}, {one.Id}, 1, 'Cash', '', current_date, now(), gen_random_uuid(), gen_random_uuid())
            """);
        await Refused("credit_not_below_zero", $"""
            insert into customer_credits (id, customer_id, currency, amount, kind, method, reference, "on", recorded_at, recorded_by, form_key)
            values (gen_random_uuid(), {who.Customer}, 'EUR', -27.41, 'PaidBack', 'Cash', '', current_date, now(), gen_random_uuid(), gen_random_uuid())
            """);
        await Refused("ck_customer_credits_paid_back", $"""
            insert into customer_credits (id, customer_id, currency, amount, kind, method, reference, "on", recorded_at, recorded_by, form_key)
            values (gen_random_uuid(), {who.Customer}, 'EUR', -1, 'PaidBack', 'CustomerCredit', '', current_date, now(), gen_random_uuid(), gen_random_uuid())
            """);
        await Refused("credit_mirrors_payment", $"""
            insert into payments (id, invoice_id, amount, method, reference, paid_on, recorded_at, recorded_by, form_key)
            values (gen_random_uuid(), {who.Invoices[0]}, 1, 'CustomerCredit', '', current_date, now(), gen_random_uuid(), gen_random_uuid())
            """);
    }

    [Fact]
    public async Task Credit_is_no_money_that_comes_or_goes()
    {
        await using var who = await Debtor.With(server, 60);
        Assert.Equal(new CreditIsNoMoney(), (await who.Receive(who.Money(100) with { Method = PaymentMethod.CustomerCredit })).Failure);
        MoneyBook.Done(await who.Receive(who.Money(100)));
        Assert.Equal(new CreditIsNoMoney(), (await who.Book.Do<ReceiptService, Result>(service => service.PayBackAsync(
            who.Customer, "EUR", new TypedPayment(100, PaymentMethod.CustomerCredit, "", who.Book.Today, Guid.NewGuid()), Ct))).Failure);
        Assert.Equal(100, await who.Credit());
        await who.JournalAgrees();
    }

    [Fact]
    public async Task More_than_the_book_can_hold_is_refused_in_words()
    {
        await using var who = await Debtor.With(server, 60);
        Assert.Equal(new MoneyTooMuch(100_000_000_000m, "EUR"), (await who.Receive(who.Money(100_000_000_000m))).Failure);
        MoneyBook.Done(await who.Receive(who.Money(99_999_999_999.99m)));
    }
}
