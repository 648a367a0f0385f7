using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Ledger;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Results;
using RepairShop.Services.Ledger;
using RepairShop.Services.Parts;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Ledger;

public sealed class StockValueTests(PostgresServer server)
{
    private static CancellationToken Ct => MoneyBook.Cancel;

    private static async Task<Guid> Part(MoneyBook book) => MoneyBook.Done(await book.Do<PartService, Result<Guid>>(service =>
        service.AddAsync(new PartTyped("", "Cell spring", "", Provenance.New, 5, 12, "", 0, 0), Ct)));

    private static async Task BringIn(MoneyBook book, Guid part, decimal quantity, decimal cost)
    {
        MoneyBook.Done(await book.Do<PartService, Result>(service => service.BringInAsync(part, MovementKind.Received, quantity, cost, "", Ct)));
        book.Clock.Advance(TimeSpan.FromMinutes(1));
    }

    private static async Task<(Guid Repair, Guid Use)> Use(MoneyBook book, Guid part, decimal quantity)
    {
        var repair = await book.Repair();
        var number = await book.Db(db => db.Parts.Where(row => row.Id == part).Select(row => row.Number).SingleAsync(Ct));
        var use = MoneyBook.Done(await book.Do<PartUseService, Result<Guid>>(service =>
            service.UseAsync(repair.Id, new PartUseTyped(number, "", quantity, "pcs", Provenance.New, null, null, null), Guid.CreateVersion7(), Ct)));
        book.Clock.Advance(TimeSpan.FromMinutes(1));
        return (repair.Id, use);
    }

    [Fact]
    public async Task Parts_leave_at_what_the_oldest_had_cost()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var part = await Part(book);
        await BringIn(book, part, 2, 3.00m);
        await BringIn(book, part, 3, 4.50m);
        await Use(book, part, 3); // 2 at 3.00 and 1 at 4.50
        Assert.Equal(
            new Dictionary<LedgerAccount, decimal> { [LedgerAccount.Stock] = 9.00m, [LedgerAccount.CostOfParts] = 10.50m, [LedgerAccount.PartsReceived] = -19.50m }, await JournalTests.Balances(book));
    }

    [Fact]
    public async Task A_part_taken_off_again_gives_its_layers_back_what_it_took()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var part = await Part(book);
        await BringIn(book, part, 1, 3.00m);
        await BringIn(book, part, 1, 4.50m);
        var (repair, use) = await Use(book, part, 2);
        MoneyBook.Done(await book.Do<PartUseService, Result>(service => service.TakeOffAsync(repair, use, Ct)));
        Assert.Equal(new Dictionary<LedgerAccount, decimal> { [LedgerAccount.Stock] = 7.50m, [LedgerAccount.PartsReceived] = -7.50m }, await JournalTests.Balances(book));
        await Use(book, part, 1);
        Assert.Equal(3.00m, (await JournalTests.Balances(book))[LedgerAccount.CostOfParts]);
    }

    [Fact]
    public async Task A_layer_cut_in_thirds_leaves_no_cent_behind()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var part = await Part(book);
        await BringIn(book, part, 0.3m, 33.33m); // 10.00 in all
        foreach (var _ in Enumerable.Range(0, 3))
            await Use(book, part, 0.1m);
        Assert.Equal(new Dictionary<LedgerAccount, decimal> { [LedgerAccount.CostOfParts] = 10.00m, [LedgerAccount.PartsReceived] = -10.00m }, await JournalTests.Balances(book));
    }

    [Fact]
    public async Task A_count_is_put_right_against_its_own_account()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var part = await Part(book);
        await BringIn(book, part, 4, 2);
        MoneyBook.Done(await book.Do<PartService, Result<decimal>>(service => service.CorrectCountAsync(part, 3, "One rolled away", Ct)));
        Assert.Equal(
            new Dictionary<LedgerAccount, decimal> { [LedgerAccount.Stock] = 6, [LedgerAccount.StockDifferences] = 2, [LedgerAccount.PartsReceived] = -8 }, await JournalTests.Balances(book));
    }

    /// <summary>Held against a plain queue of single pieces kept beside it; the seed is fixed.</summary>
    [Fact]
    public async Task Random_comings_and_goings_are_worth_what_a_queue_of_pieces_says()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var part = await Part(book);
        var random = new Random(7);
        var (pieces, cost) = (new Queue<decimal>(), 0m);
        for (var step = 0; step < 60; step++)
        {
            var quantity = random.Next(1, 5);
            if (pieces.Count < quantity || random.Next(2) == 0)
            {
                var price = random.Next(1, 2000) / 100m;
                await BringIn(book, part, quantity, price);
                foreach (var _ in Enumerable.Range(0, quantity))
                    pieces.Enqueue(price);
            }
            else
            {
                await Use(book, part, quantity);
                foreach (var _ in Enumerable.Range(0, quantity))
                    cost += pieces.Dequeue();
            }
        }
        var balances = await JournalTests.Balances(book);
        Assert.Equal((pieces.Sum(), cost), (balances.GetValueOrDefault(LedgerAccount.Stock), balances[LedgerAccount.CostOfParts]));
        Assert.Equal(pieces.Sum(), await book.Db(db => db.StockLayers.SumAsync(row => row.LeftValue, Ct)));
        Assert.Equal(pieces.Count, await book.Db(db => db.StockLayers.SumAsync(row => row.LeftQuantity, Ct)));
    }

    [Fact]
    public async Task Two_people_taking_at_once_do_not_take_the_same_layer_twice()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var part = await Part(book);
        for (var n = 1; n <= 8; n++)
            await BringIn(book, part, 1, n);
        await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Use(book, part, 1)));
        Assert.Equal(36, (await JournalTests.Balances(book))[LedgerAccount.CostOfParts]);
        Assert.Equal(0, await book.Db(db => db.StockLayers.SumAsync(row => row.LeftValue, Ct)));
    }

    [Fact]
    public async Task Stock_moved_before_there_was_a_journal_is_valued_when_it_comes()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var part = await Part(book);
        await BringIn(book, part, 2, 3);
        await Use(book, part, 1);
        var before = await JournalTests.Balances(book);
        var script = await ScriptAsync();
        await book.Db(db => db.Database.ExecuteSqlRawAsync(
            """
            alter table journal_lines disable trigger user; alter table journal_entries disable trigger user; alter table stock_takings disable trigger user;
            delete from journal_lines; delete from journal_entries; delete from stock_takings; delete from stock_layers;
            alter table journal_lines enable trigger user; alter table journal_entries enable trigger user; alter table stock_takings enable trigger user;
            """, Ct));
        await book.Db(async db =>
        {
            await db.Database.OpenConnectionAsync(Ct);
            await using var command = db.Database.GetDbConnection().CreateCommand();
            command.CommandText = script;
            await command.ExecuteNonQueryAsync(Ct);
        });
        Assert.Equal(before, await JournalTests.Balances(book));
    }

    private static async Task<string> ScriptAsync()
    {
        var assembly = typeof(JournalBackfill).Assembly;
        using var reader = new StreamReader(assembly.GetManifestResourceStream(assembly.GetManifestResourceNames().Single(name => name.EndsWith(".070-journal.sql", StringComparison.Ordinal)))!);
        return await reader.ReadToEndAsync(Ct);
    }
}
