using Microsoft.EntityFrameworkCore;
using Npgsql;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Invoices;
using RepairShop.Services.Ledger;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Tests.Invoices;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Ledger;

public sealed class JournalTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    internal static async Task<Guid> Issued(MoneyBook book, int minutes = 60)
    {
        var repair = await book.Repair(preApproved: 5000);
        await InvoiceTests.Work(book, repair, minutes);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await InvoiceTests.Issue(book, id));
        return id;
    }

    internal static Task<Result> Pay(MoneyBook book, Guid invoice, decimal amount, PaymentMethod method = PaymentMethod.BankTransfer, DateOnly? on = null) =>
        book.Do<PaymentService, Result>(service => service.PayAsync(invoice, new(amount, method, "", on ?? book.Today, Guid.NewGuid()), Ct));

    internal static Task<Dictionary<LedgerAccount, decimal>> Balances(MoneyBook book) => book.Db(db =>
        db.JournalLines.GroupBy(line => line.Account).Select(group => new { group.Key, Sum = group.Sum(line => line.Amount) })
            .Where(row => row.Sum != 0).ToDictionaryAsync(row => row.Key, row => row.Sum, Ct));

    [Fact]
    public async Task Issuing_paying_taking_back_and_crediting_each_leave_their_entry_with_its_paper_behind_it()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var id = await Issued(book); // 60.00 and 12.60 tax
        Assert.Equal(new Dictionary<LedgerAccount, decimal> { [LedgerAccount.Receivables] = 72.60m, [LedgerAccount.RevenueLabour] = -60, [LedgerAccount.Tax] = -12.60m }, await Balances(book));
        MoneyBook.Done(await Pay(book, id, 50));
        var payment = await book.Db(db => db.Payments.Select(row => row.Id).SingleAsync(Ct));
        MoneyBook.Done(await book.Do<PaymentService, Result>(service => service.TakeBackAsync(id, payment, Guid.NewGuid(), Ct)));
        MoneyBook.Done(await Pay(book, id, 20, PaymentMethod.Cash));
        MoneyBook.Done(await book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(id, "Wrong address", false, Ct)));
        Assert.Equal(new Dictionary<LedgerAccount, decimal> { [LedgerAccount.Receivables] = -20, [LedgerAccount.Cash] = 20 }, await Balances(book));
        var entries = await book.Db(db => db.JournalEntries.AsNoTracking().OrderBy(row => row.Number).ToListAsync(Ct));
        Assert.Equal(
            [JournalSource.Invoice, JournalSource.Payment, JournalSource.Payment, JournalSource.Payment, JournalSource.CreditNote], entries.Select(entry => entry.Source));
        Assert.All(entries, entry => Assert.NotNull(entry.InvoiceId));
        Assert.Equal(3, entries.Count(entry => entry.PaymentId is not null));
    }

    [Fact]
    public async Task A_deposit_waits_in_its_own_account_until_the_work_is_billed_and_a_part_given_back_lowers_what_was_earned()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair(preApproved: 5000);
        MoneyBook.Done(await InvoiceTests.Issue(book, MoneyBook.Done(await book.Do<InvoiceService, Result<Guid>>(service => service.BeginDepositAsync(repair.Number, 50, Ct)))));
        Assert.Equal(-50m, (await Balances(book))[LedgerAccount.Deposits]);
        await InvoiceTests.Work(book, repair, 120);
        var id = await InvoiceTests.Begin(book, repair.Number);
        MoneyBook.Done(await InvoiceTests.Issue(book, id)); // 120.00 less the deposit of 50.00
        Assert.Equal(
            new Dictionary<LedgerAccount, decimal> { [LedgerAccount.Receivables] = 145.20m, [LedgerAccount.RevenueLabour] = -120, [LedgerAccount.Tax] = -25.20m }, await Balances(book));
        var part = new CreditRequest([], [new CreditedAmount(new TaxKey(RepairShop.Domain.Paperwork.TaxCategory.Standard, "Standard", 21), 20)]);
        MoneyBook.Done(await book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(id, part, "Goodwill", false, Ct)));
        Assert.Equal(
            new Dictionary<LedgerAccount, decimal> { [LedgerAccount.Receivables] = 121, [LedgerAccount.RevenueLabour] = -100, [LedgerAccount.Tax] = -21 }, await Balances(book));
    }

    [Fact]
    public async Task The_database_refuses_what_does_not_balance_what_is_added_later_and_every_change()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        await Issued(book);
        await book.Db(async db =>
        {
            var part = new Part { Number = "P1", Name = "Donor spring", CreatedAt = book.Clock.GetUtcNow() };
            db.AddRange(part, new StockMovement { PartId = part.Id, Quantity = 1, At = book.Clock.GetUtcNow(), By = book.Person });
            await db.SaveChangesAsync(Ct);
        });
        async Task Refused(string constraint, FormattableString sql) =>
            Assert.Equal(constraint, (await Assert.ThrowsAsync<PostgresException>(() => book.Db(db => db.Database.ExecuteSqlInterpolatedAsync(sql, Ct)))).ConstraintName);
        await Refused("append_only_journal_lines", $"update journal_lines set amount = amount + 1");
        await Refused("append_only_journal_entries", $"delete from journal_entries");
        await Refused("append_only_journal_lines", $"truncate journal_lines");
        await Refused("journal_whole", $"""
            insert into journal_lines (id, entry_id, date, currency, position, account, amount, tax_name, tax_percent)
            select gen_random_uuid(), e.id, e.date, e.currency, n, 'Cash', case n when 8 then 5 else -5 end, '', 0 from journal_entries e, generate_series(8, 9) n
            """);
        await Refused("journal_balances", $"""
            with e as (insert into journal_entries (id, date, source, currency, movement_id, invoice_id, line_count, posted_at, posted_by)
              select gen_random_uuid(), current_date, 'Stock', 'EUR', id, null, 2, now(), by from stock_movements returning *)
            insert into journal_lines (id, entry_id, date, currency, position, account, amount, tax_name, tax_percent)
              select gen_random_uuid(), e.id, e.date, e.currency, n, 'Cash', n, '', 0 from e, generate_series(1, 2) n
            """);
    }

    [Fact]
    public async Task What_was_there_before_the_journal_is_written_down_at_the_next_start_and_once()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var id = await Issued(book);
        MoneyBook.Done(await Pay(book, id, 72.60m));
        var before = await Balances(book);
        await book.Db(db => db.Database.ExecuteSqlRawAsync(
            """
            alter table journal_lines disable trigger user; alter table journal_entries disable trigger user;
            delete from journal_lines; delete from journal_entries;
            alter table journal_lines enable trigger user; alter table journal_entries enable trigger user;
            """, Ct));
        Assert.Empty(await Balances(book));
        for (var start = 0; start < 2; start++)
            await book.Db(db => JournalBackfill.EnsureAsync(db, Ct));
        Assert.Equal(before, await Balances(book));
        Assert.Equal(2, await book.Db(db => db.JournalEntries.CountAsync(Ct)));
    }

    [Fact]
    public async Task The_database_knows_the_digits_of_every_currency()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        foreach (var code in Currency.All)
            Assert.Equal(Currency.MinorUnits(code), await book.Db(db => db.Database.SqlQuery<int>($"select minor_units({code}) as \"Value\"").SingleAsync(Ct)));
    }
}
