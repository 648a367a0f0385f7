using Microsoft.EntityFrameworkCore;
using Npgsql;
using RepairShop.Services.Tests.Invoices;
using RepairShop.Services.Tests.Ledger;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Database;

/// <summary>What was issued stays, even for somebody who writes SQL with the program's own role.</summary>
public sealed class NothingSlipsInTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    private static async Task<string?> Refused(MoneyBook book, string sql) =>
        (await Assert.ThrowsAsync<PostgresException>(() => book.Db(db => db.Database.ExecuteSqlRawAsync(sql, Ct)))).ConstraintName;

    [Fact]
    public async Task A_drafts_line_cannot_be_moved_onto_an_issued_invoice()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        await JournalTests.Issued(book);
        var repair = await book.Repair(preApproved: 5000);
        await InvoiceTests.Work(book, repair, 60);
        await InvoiceTests.Begin(book, repair.Number);
        const string onto = "set invoice_id = (select id from invoices where issued_at is not null) where invoice_id in (select id from invoices where issued_at is null)";
        Assert.Equal("issued_invoice_stays", await Refused(book, $"update invoice_lines {onto}"));
    }

    [Fact]
    public async Task A_drafts_line_cannot_be_moved_onto_an_estimate_that_was_sent()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        await book.Sent((await book.Repair()).Number);
        Assert.Equal("sent_estimate_stays", await Refused(book, """
            with draft as (insert into estimates select (jsonb_populate_record(e, jsonb_build_object('id', gen_random_uuid(), 'revision', 2, 'sent_at', null))).* from estimates e returning id),
            line as (insert into estimate_lines select (jsonb_populate_record(l, jsonb_build_object('id', gen_random_uuid(), 'estimate_id', draft.id))).* from estimate_lines l, draft limit 1 returning id)
            select 1 from line;
            update estimate_lines set estimate_id = (select id from estimates where revision = 1)
            where estimate_id = (select id from estimates where revision = 2)
            """));
    }

    [Fact]
    public async Task No_table_whose_rows_stay_can_be_emptied_as_a_whole()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var open = await book.Db(db => db.Database.SqlQuery<string>($"""
            select distinct kept.tgrelid::regclass::text as "Value"
            from pg_trigger kept
            join pg_proc rule on rule.oid = kept.tgfoid
            where rule.proname in ('refuse_change', 'issued_invoice_stays', 'issued_lines_stay', 'sent_estimate_stays', 'sent_estimate_lines_stay', 'reminder_letter_stays')
              and not exists (select 1 from pg_trigger whole where whole.tgrelid = kept.tgrelid and whole.tgname = 'no_truncate')
            """).ToListAsync(Ct));
        Assert.Empty(open);
        foreach (var table in new[] { "invoices", "invoice_lines", "invoice_taxes", "invoice_changes", "estimates", "estimate_lines" })
            Assert.Equal($"append_only_{table}", await Refused(book, $"truncate {table} cascade"));
        Assert.Equal("append_only_number_series", await Refused(book, "truncate number_series"));
        Assert.Equal("append_only_stock_layers", await Refused(book, "truncate stock_layers cascade"));
    }
}
