using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Cameras;
using RepairShop.Services.Customers;
using RepairShop.Services.Database;
using RepairShop.Services.Invoices;
using RepairShop.Services.Notebook;
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
    public async Task Pages_of_a_word_many_share_hold_every_match_once_newest_first()
    {
        await using var book = await CounterBook.OpenAsync(server);
        for (var number = 0; number < 100; number++)
        {
            await book.Book(CounterBook.Booking(number % 3 == 0 ? "Ines Marchetti" : "Łukasz Halloway", $"S-{number}") with { CustomerIsSomebodyElse = true });
            book.Clock.Advance(TimeSpan.FromMinutes(1));
        }

        var (sizes, seen, after) = (new List<int>(), new List<string>(), (string?)null);
        do
        {
            var page = await book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter("hallow", After: after), Cancel));
            sizes.Add(page.Lines.Count);
            seen.AddRange(page.Lines.Select(line => line.Number));
            after = page.Next;
        }
        while (after is not null);
        Assert.Equal([30, 30, 6], sizes);
        Assert.Equal(Enumerable.Range(0, 100).Where(number => number % 3 != 0).Reverse().Select(number => $"2026-{number + 1:0000}"), seen);
    }

    [Fact]
    public async Task A_long_number_that_is_no_telephone_is_found_as_it_was_typed()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var odd = CounterBook.Booking();
        await book.Book(odd with { NewCamera = odd.NewCamera with { Model = "1950-1953 / 11-22" } });
        var found = await book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter("1953 / 11-22 "), Cancel));
        Assert.Single(found.Lines);
        found = await book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter("1950-1953 / 11"), Cancel));
        Assert.Single(found.Lines);
        Assert.Empty(found.Instead);
    }

    [Fact]
    public async Task Of_the_words_near_to_one_typed_those_with_the_fewest_slips_are_taken()
    {
        await using var book = await CounterBook.OpenAsync(server);
        await book.Book(CounterBook.Booking("Ines Marchetti", "S-1"));
        await book.Book(CounterBook.Booking("Ines Marchesi", "S-2") with { CustomerIsSomebodyElse = true });
        var found = await book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter("marcheti"), Cancel));
        Assert.Equal(["marchesi", "marchetti"], found.Instead);
        found = await book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter("marchettti"), Cancel));
        Assert.Equal("Ines Marchetti", Assert.Single(found.Lines).Customer);
    }

    /// <summary>A search reads through all that waits to be sorted into an index.</summary>
    [Fact]
    public async Task Nothing_waits_to_be_sorted_into_an_index_that_search_reads()
    {
        await using var book = await CounterBook.OpenAsync(server);
        var waiting = await book.Db(db => db.Database.SqlQuery<string>(
            $"""
            select distinct i.indexrelid::regclass::text as "Value" from pg_index i
            join pg_opclass o on o.oid = any(i.indclass) join pg_class c on c.oid = i.indexrelid
            where o.opcname = 'gin_trgm_ops' and not coalesce(c.reloptions @> array['fastupdate=off'], false)
            """).ToListAsync(Cancel));
        Assert.Empty(waiting);
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

    [Fact]
    public async Task A_question_cut_short_is_not_cut_through_a_character()
    {
        await using var book = await Book(server);
        Assert.Empty((await book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter(new string('a', 199) + "📷"), Cancel))).Lines);
        Assert.Empty((await book.Do<InvoiceListService, InvoicePage>(list => list.ListAsync(InvoiceShow.All, new string('a', 199) + "📷", null, Cancel))).Rows);
        Assert.Empty(await book.Do<NotebookSearchService, IReadOnlyList<ModelFound>>(list => list.FindAsync(new string('a', 199) + "📷", Cancel)));
    }

    [Fact]
    public async Task What_was_put_right_is_put_right_on_every_page()
    {
        await using var book = await CounterBook.OpenAsync(server);
        for (var number = 0; number < 33; number++)
            await book.Book(CounterBook.Booking($"Halloway {number}") with { CustomerIsSomebodyElse = true });
        await AllPages(after => book.Do<RepairListService, ListPage<RepairLine>>(list => list.ListAsync(new RepairFilter("petler", After: after), Cancel)));
        await AllPages(after => book.Do<CustomerService, ListPage<CustomerLine>>(list => list.ListAsync("hallowya", after, Cancel)));
        await AllPages(after => book.Do<CameraService, ListPage<CameraLine>>(list => list.ListAsync("petler", after, Cancel)));

        static async Task AllPages<T>(Func<string?, Task<ListPage<T>>> page)
        {
            var first = await page(null);
            Assert.Equal((30, 3), (first.Lines.Count, (await page(first.Next)).Lines.Count));
        }
    }
}
