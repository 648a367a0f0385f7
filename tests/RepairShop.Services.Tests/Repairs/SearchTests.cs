using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Cameras;
using RepairShop.Services.Customers;
using RepairShop.Services.Database;
using RepairShop.Services.Repairs;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Repairs;

public sealed class SearchTests(PostgresServer server)
{
    private static CancellationToken Cancel => CounterBook.Cancel;

    private static async Task<CounterBook> Book(PostgresServer server)
    {
        var book = await CounterBook.OpenAsync(server);
        var first = CounterBook.Booking("Łukasz Halloway", "218 446");
        await book.Book(first with { NewCustomer = first.NewCustomer with { Phone = "+44 20 7946 0123", Email = "luk@example.com" } });
        var second = CounterBook.Booking("Ines Marchetti", "X-99");
        await book.Book(second with { NewCamera = second.NewCamera with { Maker = "Tacet", Model = "Corvid II" } });
        return book;
    }

    [Theory]
    [InlineData("2026-0001")]
    [InlineData("lukasz")]
    [InlineData("HALLOWAY")]
    [InlineData("halloway pelter")]
    [InlineData("luk@example.com")]
    [InlineData("020 7946 0123")]
    [InlineData("+44 (20) 7946-0123")]
    [InlineData("218 446")]
    [InlineData("218446")]
    [InlineData("7946-0123")]
    [InlineData("haloway")]
    [InlineData("hallowya")]
    [InlineData("petler")]
    [InlineData("orevale peltr")]
    public async Task A_repair_is_found_by(string typed)
    {
        await using var book = await Book(server);
        var found = await book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter(typed), Cancel));
        Assert.Equal("2026-0001", Assert.Single(found.Lines).Number);
    }

    [Theory]
    [InlineData("zzzzzz")]
    [InlineData("%")]
    [InlineData("_____")]
    [InlineData("halloway corvid")]
    [InlineData("'; drop table repairs; --")]
    public async Task Nothing_is_found_by(string typed)
    {
        await using var book = await Book(server);
        Assert.Empty((await book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter(typed), Cancel))).Lines);
    }

    [Fact]
    public async Task An_exact_number_leads_straight_to_its_sheet_and_nothing_else_does()
    {
        await using var book = await Book(server);
        Task<string?> Number(string typed) => book.Do<RepairListService, string?>(list => list.NumberAsync(typed, Cancel));
        Assert.Equal("2026-0002", await Number(" 2026-0002 "));
        Assert.Null(await Number("2026-000"));
        Assert.Null(await Number("2026%"));
    }

    [Fact]
    public async Task A_new_owner_or_name_is_found_at_once()
    {
        await using var book = await Book(server);
        await book.Db(db => db.Customers.Where(row => row.Name == "Ines Marchetti").ExecuteUpdateAsync(set => set.SetProperty(row => row.Name, "Ines Underhill"), Cancel));
        var found = await book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter("underhil"), Cancel));
        Assert.Equal("2026-0002", Assert.Single(found.Lines).Number);
    }

    [Fact]
    public async Task Pages_hold_every_repair_once_newest_first_and_a_wrong_key_begins_anew()
    {
        await using var book = await CounterBook.OpenAsync(server);
        for (var number = 0; number < 65; number++)
        {
            await book.Book();
            book.Clock.Advance(TimeSpan.FromMinutes(1));
        }

        var (seen, after) = (new List<string>(), (string?)null);
        do
        {
            var page = await book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter(After: after), Cancel));
            seen.AddRange(page.Lines.Select(line => line.Number));
            after = page.Next;
        }
        while (after is not null);
        Assert.Equal(Enumerable.Range(1, 65).Reverse().Select(number => $"2026-{number:0000}"), seen);
        var wrong = await book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter(After: "nonsense"), Cancel));
        Assert.Equal("2026-0065", wrong.Lines[0].Number);
    }

    [Fact]
    public async Task Open_ones_and_stages_are_told_apart()
    {
        await using var book = await Book(server);
        await book.Db(db => db.Repairs.Where(row => row.Number == "2026-0001").ExecuteUpdateAsync(set => set.SetProperty(row => row.ReturnedAt, book.Clock.GetUtcNow()), Cancel));
        Task<ListPage<RepairLine>> List(RepairFilter filter) => book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(filter, Cancel));
        Assert.Equal("2026-0002", Assert.Single((await List(new RepairFilter(Open: true))).Lines).Number);
        Assert.Equal("2026-0001", Assert.Single((await List(new RepairFilter(Stage: Stage.Returned))).Lines).Number);
        Assert.Empty((await List(new RepairFilter("halloway", Open: true))).Lines);
    }

    [Fact]
    public async Task Customers_and_cameras_are_found_with_a_slip_and_listed_page_by_page()
    {
        await using var book = await Book(server);
        Assert.Equal("Ines Marchetti", Assert.Single(await book.Do<CustomerService, IReadOnlyList<CustomerLine>>(customers => customers.FindAsync("marcheti", Cancel))).Name);
        Assert.Equal("Corvid II", Assert.Single(await book.Do<CameraService, IReadOnlyList<CameraLine>>(cameras => cameras.FindAsync("corvd", Cancel))).Model);
        Assert.Equal(["Ines Marchetti", "Łukasz Halloway"], (await book.Do<CustomerService, ListPage<CustomerLine>>(customers => customers.ListAsync(null, null, Cancel))).Lines.Select(line => line.Name));
    }
}
