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

/// <summary>One invoice of 60.00 and 12.60 tax.</summary>
public sealed class WriteOffTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    private static Task<Result> WriteOff(Debtor who, decimal amount, string reason = "Moved away without an address", Guid? form = null) =>
        who.Book.Do<WriteOffService, Result>(service => service.WriteOffAsync(who.Invoices[0], amount, reason, form ?? Guid.NewGuid(), Ct));

    private static async Task<Result> Undo(Debtor who)
    {
        var first = await who.Book.Db(db => db.WriteOffs.OrderBy(row => row.Id).FirstAsync(Ct));
        return await who.Book.Do<WriteOffService, Result>(service => service.UndoAsync(who.Invoices[0], first.Id, Guid.NewGuid(), Ct));
    }

    private static async Task<IReadOnlyList<decimal?>> Figure(Debtor who, string key) =>
        (await who.Book.Do<FigureService, Figure?>(service => service.OneAsync(key, new Period(2026, 11), FigureService.OnPage, Ct)))!.Rows[0].Values;

    [Fact]
    public async Task The_rest_is_given_up_for_a_reason_and_is_neither_owed_nor_money()
    {
        await using var who = await Debtor.With(server, 60);
        MoneyBook.Done(await JournalTests.Pay(who.Book, who.Invoices[0], 36.30m));
        Assert.IsType<WriteOffReasonMissing>((await WriteOff(who, 36.30m, " ")).Failure);
        Assert.Equal(new WriteOffAboveOwed(36.31m, 36.30m, "EUR"), (await WriteOff(who, 36.31m)).Failure);
        MoneyBook.Done(await WriteOff(who, 36.30m));
        Assert.Equal([0m], await who.Owed());
        Assert.Equal(36.30m, (await JournalTests.Balances(who.Book))[LedgerAccount.WriteOffs]);
        Assert.Equal([60m, 12.60m, 6.30m], await Figure(who, "tax")); // by payment: of the half that was paid
        Assert.Equal([0m, 0m], await Figure(who, "unpaid"));
        Assert.Empty((await who.Book.Do<InvoiceListService, InvoicePage>(service => service.ListAsync(InvoiceShow.Unpaid, "", null, Ct))).Rows);
        await who.JournalAgrees();
    }

    [Fact]
    public async Task Who_pays_after_all_does_so_once_the_write_off_is_undone()
    {
        await using var who = await Debtor.With(server, 60);
        MoneyBook.Done(await WriteOff(who, 72.60m));
        Assert.Equal(new WrittenOffMeanwhile(72.60m, "EUR"), (await JournalTests.Pay(who.Book, who.Invoices[0], 72.60m)).Failure);
        Assert.Equal(new ShareAboveOwed(0, "I-2026-0001", 10, 0, "EUR"), (await who.Receive(who.Money(10, 10))).Failure);
        MoneyBook.Done(await Undo(who));
        Assert.IsType<WriteOffUndoneAlready>((await Undo(who)).Failure);
        MoneyBook.Done(await JournalTests.Pay(who.Book, who.Invoices[0], 72.60m));
        Assert.Equal([0m], await who.Owed());
        Assert.False((await JournalTests.Balances(who.Book)).ContainsKey(LedgerAccount.WriteOffs));
        await who.JournalAgrees();
    }

    [Fact]
    public async Task People_giving_up_paying_and_crediting_at_once_never_take_the_invoice_below_zero()
    {
        await using var who = await Debtor.With(server, 60);
        var credit = who.Book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(who.Invoices[0], "Wrong address", false, Ct));
        var others = await Task.WhenAll(Enumerable.Range(0, 6).Select(trial => trial % 2 == 0 ? WriteOff(who, 72.60m) : JournalTests.Pay(who.Book, who.Invoices[0], 72.60m)));
        var credited = await credit;
        Assert.True(others.Count(result => result.IsDone) <= 1);
        Assert.True(credited.IsDone || credited.Failure is CreditBelowWriteOff, credited.Failure?.Message);
        var invoice = await who.Book.Db(db => db.Invoices.SingleAsync(row => row.Id == who.Invoices[0], Ct));
        Assert.Contains((invoice.Paid, invoice.Credited, invoice.WrittenOff), new[] { (72.60m, 72.60m, 0m), (0m, 72.60m, 0m), (0m, 0m, 72.60m) });
        await who.JournalAgrees();
    }

    [Fact]
    public async Task The_same_form_sent_twice_is_one_write_off()
    {
        await using var who = await Debtor.With(server, 60);
        var form = Guid.NewGuid();
        foreach (var result in await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => WriteOff(who, 30, form: form))))
            MoneyBook.Done(result);
        Assert.Equal([42.60m], await who.Owed());
    }

    [Fact]
    public async Task An_invoice_given_up_in_part_is_credited_only_as_far_as_the_rest_goes()
    {
        await using var who = await Debtor.With(server, 60);
        MoneyBook.Done(await WriteOff(who, 12.60m));
        Task<Result<IssuedPaper>> Credit(decimal net) => who.Book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(
            who.Invoices[0], new CreditRequest([], [new CreditedAmount(new TaxKey(Domain.Paperwork.TaxCategory.Standard, "Standard", 21), net)]), "Goodwill", false, Ct));
        Assert.IsType<CreditBelowWriteOff>((await Credit(50)).Failure); // 60.50 of the 60.00 left
        MoneyBook.Done(await Credit(49));
        Assert.Equal([0.71m], await who.Owed());
        await who.JournalAgrees();
    }

    [Fact]
    public async Task The_database_itself_refuses_to_give_up_more_than_is_owed()
    {
        await using var who = await Debtor.With(server, 60);
        var refused = await Assert.ThrowsAsync<PostgresException>(() => who.Book.Db(db => db.Database.ExecuteSqlAsync(
            $"""
            insert into write_offs (id, invoice_id, amount, reason, "on", recorded_at, recorded_by, form_key)
            values (gen_random_uuid(), {who.Invoices[0]}, 72.61, 'Too much', current_date, now(), gen_random_uuid(), gen_random_uuid())
            """, Ct)));
        Assert.Equal("ck_invoices_written_off", refused.ConstraintName);
    }
}
