using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Results;
using RepairShop.Services.Invoices;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Parts;
using RepairShop.Services.Reports;
using RepairShop.Services.Tests.Invoices;
using RepairShop.Services.Tests.Ledger;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Reports;

public sealed class FigureTests(PostgresServer server)
{
    private static readonly Period Year = new(2026, null);

    private static readonly Period November = new(2026, 11);

    private static CancellationToken Ct => MoneyBook.Cancel;

    private static async Task<Figure> One(MoneyBook book, string key, Period period) =>
        (await book.Do<FigureService, Figure?>(service => service.OneAsync(key, period, FigureService.OnPage, Ct)))!;

    private static async Task<Figure> Behind(MoneyBook book, string key, Period period, string row) =>
        (await book.Do<FigureService, Figure?>(service => service.BehindAsync(key, period, row, FigureService.OnPage, Ct)))!;

    private static IReadOnlyList<decimal?> Row(Figure figure, string key) => figure.Rows.Single(row => row.Key == key).Values;

    [Fact]
    public async Task Revenue_is_what_was_issued_by_kind_less_what_was_credited_and_its_papers_add_up_to_it()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        await JournalTests.Issued(book, 60); // 60.00
        await JournalTests.Issued(book, 90); // 90.00
        var wrong = await JournalTests.Issued(book, 30);
        MoneyBook.Done(await book.Do<InvoiceIssueService, Result<IssuedPaper>>(service => service.CreditAsync(wrong, "Wrong address", false, Ct)));
        var figure = await One(book, "revenue", Year);
        Assert.Equal(11, figure.Rows.Count); // January to November
        Assert.Equal([150, 0, 0, 150], Row(figure, "2026-11"));
        Assert.Equal([0, 0, 0, 0], Row(figure, "2026-10"));
        var behind = await Behind(book, "revenue", Year, "2026-11");
        Assert.Equal(["I-2026-0001", "I-2026-0002", "I-2026-0003", "C-2026-0001"], behind.Rows.Select(row => row.Key));
        Assert.Equal(150, behind.Total(3));
    }

    [Fact]
    public async Task Tax_is_due_by_issue_at_once_and_by_payment_as_far_as_it_is_paid()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var id = await JournalTests.Issued(book); // 60.00 and 12.60
        Assert.Equal([60m, 12.60m, 0m], Row(await One(book, "tax", November), "21|Standard"));
        MoneyBook.Done(await JournalTests.Pay(book, id, 36.30m)); // half
        MoneyBook.Done(await JournalTests.Pay(book, id, 12.10m, on: new DateOnly(2026, 10, 31)));
        Assert.Equal([60m, 12.60m, 6.30m], Row(await One(book, "tax", November), "21|Standard"));
        Assert.Equal([0m, 0m, 2.10m], Row(await One(book, "tax", new Period(2026, 10)), "21|Standard"));
        var behind = await Behind(book, "tax", November, "21|Standard");
        Assert.Equal([60m, 12.60m, 6.30m], Enumerable.Range(0, 3).Select(column => behind.Total(column)!.Value));
    }

    [Theory]
    [InlineData(14, "due")]
    [InlineData(15, "30")]
    [InlineData(44, "30")]
    [InlineData(45, "60")]
    [InlineData(75, "90")]
    [InlineData(104, "90")]
    [InlineData(105, "old")]
    public async Task What_is_unpaid_is_told_by_how_late_it_is(int daysLater, string age)
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var id = await JournalTests.Issued(book); // due after 14 days
        MoneyBook.Done(await JournalTests.Pay(book, id, 2.60m));
        book.Clock.Advance(TimeSpan.FromDays(daysLater));
        var figure = await One(book, "unpaid", Year);
        Assert.Equal([1, 70], Row(figure, age));
        Assert.Equal((1m, 70m), (figure.Total(0)!.Value, figure.Total(1)!.Value));
        Assert.Equal([Math.Max(0, daysLater - 14), 70], Assert.Single((await Behind(book, "unpaid", Year, age)).Rows).Values);
    }

    [Fact]
    public async Task Hours_sold_stand_beside_hours_worked()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var repair = await book.Repair();
        await book.Sent(repair.Number); // 2 to 3 h
        MoneyBook.Done(await book.Answer(repair.Number, EstimateAnswer.Approved));
        await InvoiceTests.Work(book, repair, 240); // 4 h, of which 3 may be charged
        MoneyBook.Done(await InvoiceTests.Issue(book, await InvoiceTests.Begin(book, repair.Number, InvoiceBasis.AsEstimated)));
        Assert.Equal([4, 4, 3, 75], Row(await One(book, "hours", November), "2026-11"));
        Assert.Equal([4, 4, 3], Assert.Single((await Behind(book, "hours", November, "2026-11")).Rows).Values);
        await book.Db(db => db.Database.ExecuteSqlAsync($"update repairs set ready_at = {book.Clock.GetUtcNow()}, returned_at = {book.Clock.GetUtcNow()}", Ct));
        Assert.Equal([1, 2, 3, 4, 160], Row(await One(book, "estimates", November), "Example Works Model 3"));
        var turnaround = Row(await One(book, "turnaround", November), "2026-11");
        Assert.Equal([1, 2, 2], turnaround); // booked in two days ago
        Assert.Equal([1, 1, 0], Row(await One(book, "in-and-out", November), "2026-11"));
        Assert.Equal([1, 1], Assert.Single((await Behind(book, "in-and-out", November, "2026-11")).Rows).Values);
    }

    [Fact]
    public async Task The_median_and_nine_in_ten_are_those_of_a_published_definition()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        // Returned after 1 to 10 days. Linear interpolation between ranks (Hyndman and Fan 1996, definition 7):
        // median 5.5, 90th percentile 9.1.
        for (var days = 1; days <= 10; days++)
        {
            var repair = await book.Repair();
            await book.Db(db => db.Database.ExecuteSqlAsync(
                $"update repairs set booked_at = {book.Clock.GetUtcNow().AddDays(-days)}, ready_at = {book.Clock.GetUtcNow()}, returned_at = {book.Clock.GetUtcNow()} where id = {repair.Id}", Ct));
        }
        Assert.Equal([10, 5.5m, 9.1m], Row(await One(book, "turnaround", November), "2026-11"));
    }

    [Fact]
    public async Task Margin_takes_off_what_the_parts_had_cost_and_stock_is_what_is_left()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var part = MoneyBook.Done(await book.Do<PartService, Result<Guid>>(service =>
            service.AddAsync(new PartTyped("P1", "Cell spring", "", Provenance.New, 5, 12, "", 0, 0), Ct)));
        MoneyBook.Done(await book.Do<PartService, Result>(service => service.BringInAsync(part, MovementKind.Received, 3, 5, "", Ct)));
        var repair = await book.Repair(preApproved: 500);
        await InvoiceTests.Work(book, repair, 60);
        foreach (var typed in new[]
        {
            new PartUseTyped("P1", "", 1, "pcs", Provenance.New, null, null, null),
            new PartUseTyped("", "Turned screw", 2, "pcs", Provenance.MadeHere, 1.50m, 4, null),
        })
            MoneyBook.Done(await book.Do<PartUseService, Result<Guid>>(service => service.UseAsync(repair.Id, typed, Guid.CreateVersion7(), Ct)));
        MoneyBook.Done(await InvoiceTests.Issue(book, await InvoiceTests.Begin(book, repair.Number)));
        Assert.Equal([80, 8, 72, 1, 72], Row(await One(book, "margin", November), repair.Number)); // 60 + 12 + 8 less 5 + 3
        Assert.Equal([60, 20, 0, 80], Row(await One(book, "revenue", November), "2026-11"));
        Assert.Equal([10, 15, 5], Row(await One(book, "stock", November), "2026-11"));
        Assert.Equal([10, 15, 5], Assert.Single((await Behind(book, "stock", November, "2026-11")).Rows).Values);
    }

    [Fact]
    public async Task A_file_has_plain_figures_and_no_cell_a_spreadsheet_would_run()
    {
        var figure = new Figure(
            "margin", "Margin", "", "Repair", [new("Margin", FigureUnit.Money)], [new("2026-0001", "=cmd|' /C calc'!A0", null, null, [-12.5m])], false, "");
        var file = System.Text.Encoding.UTF8.GetString(await FigureWriting.FileAsync(figure, "EUR"));
        Assert.Equal("\uFEFFkey,Repair,Margin (EUR)\r\n2026-0001,'=cmd|' /C calc'!A0,-12.50\r\n", file);
    }

    [Fact]
    public async Task Every_figure_can_be_read_of_an_empty_book_and_nothing_stands_behind_a_row_that_is_not_there()
    {
        await using var book = await MoneyBook.OpenAsync(server);
        var all = await book.Do<FigureService, IReadOnlyList<Figure>>(service => service.OverviewAsync(Year, Ct));
        Assert.Equal(9, all.Count);
        Assert.All(all, figure => Assert.Equal("", figure.Svg));
        foreach (var figure in all)
            Assert.Null(await book.Do<FigureService, Figure?>(service => service.BehindAsync(figure.Key, Year, "nonsense", 10, Ct)));
        Assert.Null(await book.Do<FigureService, Figure?>(service => service.OneAsync("nonsense", Year, 10, Ct)));
    }
}
