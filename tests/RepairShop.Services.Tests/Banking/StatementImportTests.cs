using System.Text;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Results;
using RepairShop.Services.Banking;
using RepairShop.Services.Database;
using RepairShop.Services.Files;
using RepairShop.Testing;
using RepairShop.Testing.Banking;
using Xunit;
using static RepairShop.Testing.Banking.CamtFiles;

namespace RepairShop.Services.Tests.Banking;

public sealed class StatementImportTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    [Fact]
    public async Task The_same_file_is_taken_in_once_and_overlapping_ones_bring_only_what_is_new()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        string[] first = [Paid("10.00", "A", "one", reference: "R1"), Paid("20.00", "B", "two"), Paid("20.00", "B", "two")];
        var id = await book.Import(first);
        var again = MoneyBook.Done(await book.Send(CamtFiles.File(first)));
        Assert.Equal(new StatementKept(id, true), again.Kept);
        // The second has the first two days again, laid out anew, and one line more that is like two others.
        var second = await book.Import([Paid("20.00", "B", " two"), Paid("20.00", "B", "t wo"), Paid("10.00", "A", "one, said otherwise", reference: "R1"), Paid("20.00", "B", "two"), Paid("30.00", "C", "three")]);
        var view = await book.Statement(second);
        Assert.Equal((2, 3), (view.Statement.LineCount, view.Statement.KnownCount));
        Assert.Equal([20m, 30m], view.Lines.Select(line => line.Line.Amount));
        Assert.Equal(5, await book.Db(db => db.BankLines.CountAsync(Ct)));
        Assert.Equal([2, 3], (await book.Do<BankReadService, ListPage<StatementRow>>(service => service.ListAsync(null, Ct))).Lines.Select(row => row.Waiting));
    }

    [Fact]
    public async Task Files_that_overlap_sent_many_at_once_bring_each_line_once()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var sent = await Task.WhenAll(Enumerable.Range(0, 12).Select(i => book.Send(CamtFiles.File(Paid("1.00", "A", $"own {i % 4}"), Paid("2.00", "B", "shared")))));
        Assert.All(sent, one => MoneyBook.Done(one));
        Assert.Equal((4, 5), await book.Db(async db => (await db.BankStatements.CountAsync(Ct), await db.BankLines.CountAsync(Ct))));
    }

    [Fact]
    public async Task What_the_bank_wrote_is_kept_with_its_file_and_what_can_not_be_booked_says_why()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var file = CamtFiles.File(
            Paid("10.00", "A", "one"), Entry("5.00", direction: "DBIT"), Entry("6.00", extra: "<RvslInd>1</RvslInd>"), Entry("7.00", status: "PDNG"),
            Entry("8.00", currency: "CHF"), Entry("0.00"));
        var id = MoneyBook.Done(await book.Send(file)).Kept!.Id;
        var view = await book.Statement(id);
        Assert.Equal(
            [BankLineBar.None, BankLineBar.MoneyOut, BankLineBar.Reversal, BankLineBar.NotBookedYet, BankLineBar.OtherCurrency, BankLineBar.Nothing],
            view.Lines.Select(line => line.Line.Bar));
        Assert.Equal(new LineCounts(1, 0, 0, 5), view.Counts);
        Assert.Equal("Ada Sample", view.ImportedBy);
        Assert.Equal(file, await book.Do<FileStore, byte[]>(store => store.ReadAsync(view.Statement.FileHash, Ct)));
        Assert.Single((await book.Statement(id, LineShow.Waiting)).Lines);
        foreach (var line in view.Lines.Skip(1))
        {
            Assert.Null(line.Match);
            Assert.Equal(new BankLineBarred(line.Line.Bar), await book.Book(line.Line.Id, new BookingChoice(Guid.NewGuid(), [])));
        }

        // A pending line is another than the booked one that follows it.
        await book.Import(Entry("7.00"));
        Assert.Equal(2, await book.Db(db => db.BankLines.CountAsync(line => line.Amount == 7, Ct)));
    }

    [Fact]
    public async Task A_table_asks_for_its_columns_and_remembers_them_by_its_head()
    {
        await using var book = await MoneyBook.OpenAsync(server, shop => shop.Iban = Ours);
        byte[] Table(string day) => Encoding.UTF8.GetBytes($"When;Who;What;How much;Old\n{day};Ada;I-2026-0001;72,60;9,99\n");
        var key = MoneyBook.Done(await book.Send(Table("24.11.2026"))).ColumnsKey!;
        var asked = await Columns(book, key);
        Assert.Equal((false, Ours, "When"), (asked.IsRemembered, asked.Account, asked.Head[0]));
        Assert.Equal((0, 3), (asked.Guess.Date, asked.Guess.Amount));
        var columns = asked.Guess with { Name = 1, Text = 2 };
        var kept = MoneyBook.Done(await book.Do<StatementImportService, Result<StatementKept>>(service => service.TakeAsync(key, "bank.csv", columns, asked.Account, Ct)));
        Assert.Equal(("Ada", "I-2026-0001", 72.60m, Ours), (await book.Statement(kept.Id)).Lines.Select(line => (line.Line.Name, line.Line.Text, line.Line.Amount, line.Line.Account)).Single());
        var next = await Columns(book, MoneyBook.Done(await book.Send(Table("25.11.2026"))).ColumnsKey!);
        Assert.Equal((true, columns), (next.IsRemembered, next.Guess));
        Assert.Equal(new StatementKept(kept.Id, true), MoneyBook.Done(await book.Send(Table("24.11.2026"))).Kept);
        Assert.IsType<StatementFileGone>((await book.Do<StatementImportService, Result<ColumnsAsked>>(service => service.ColumnsAsync(new string('0', 64), Ct))).Failure);
        Assert.IsType<StatementFileGone>((await book.Do<StatementImportService, Result<ColumnsAsked>>(service => service.ColumnsAsync("../../etc", Ct))).Failure);
    }

    [Fact]
    public async Task A_refused_file_leaves_nothing_behind()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        Assert.Equal(new AmountUnreadable("Entry 2", "x"), (await book.Send(CamtFiles.File(Paid("1.00", "A", ""), Entry("x")))).Failure);
        Assert.IsType<OtherFile>((await book.Send("%PDF-1.4"u8.ToArray())).Failure);
        Assert.Equal(0, await book.Db(async db => await db.BankStatements.CountAsync(Ct) + await db.BankLines.CountAsync(Ct)));
        Assert.Empty(Directory.Exists(Path.Combine(book.Folder, "files")) ? Directory.GetFiles(Path.Combine(book.Folder, "files"), "*", SearchOption.AllDirectories) : []);
    }

    private static async Task<ColumnsAsked> Columns(MoneyBook book, string key) =>
        MoneyBook.Done(await book.Do<StatementImportService, Result<ColumnsAsked>>(service => service.ColumnsAsync(key, Ct)));
}
