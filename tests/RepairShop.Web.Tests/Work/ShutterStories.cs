using System.Net;
using Microsoft.EntityFrameworkCore;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Work;

public class ShutterStories(PostgresServer server)
{
    private const string Page = "/repairs/2026-0001/shutter/as-received";

    [Fact]
    public async Task Typed_readings_come_back_as_figures_and_to_the_letter()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/2", "1/125", "B"]);
        using var client = await app.SignedIn("bench");
        await client.Open(Page);
        await client.Press("Save readings",
            ("Input.Instrument", "Light gate"), ("Input.Speeds[0].Text", "½ 0.51"), ("Input.Speeds[1].Text", "8,1 8.2 8.3 ms"));
        Assert.Equal("Readings saved.", client.Notice);
        Assert.Equal(["½", "0.51", "8,1", "8.2", "8.3 ms"], client.Page.QuerySelectorAll(".typed").Select(typed => typed.TextContent));
        var row = Row(client, "1/125");
        Assert.Equal(["3", "1/122", "+0.07", "within", "8.2", "0.10"], row.Skip(1).Take(6));
        Assert.Contains("B: open as long as you hold it", client.Text);
    }

    [Theory]
    [InlineData("1/0", "divided by zero")]
    [InlineData("abc", "is not a time")]
    [InlineData("-3 ms", "is below zero")]
    public async Task A_bad_text_gets_its_sentence_at_the_field_and_nothing_is_lost(string bad, string says)
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/60", "1/125"]);
        using var client = await app.SignedIn("bench");
        await client.Open(Page);
        await client.Press("Save readings",
            ("Input.Instrument", "Light gate"), ("Input.Speeds[0].Text", "16 16.2 ms"), ("Input.Speeds[1].Text", bad), ("Input.Note", "lamp warm"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Contains(says, client.Page.QuerySelector("#Input_Speeds_1__Text-error")!.TextContent);
        Assert.Equal(("16 16.2 ms", bad, "lamp warm"), (client.Value("Input.Speeds[0].Text"), client.Value("Input.Speeds[1].Text"), client.Value("Input.Note")));
        Assert.False(await app.WithDb(db => db.Readings.AnyAsync()));
    }

    [Fact]
    public async Task Work_out_shows_figures_without_saving_and_the_script_gets_the_table_alone()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/125"]);
        using var client = await app.SignedIn("bench");
        await client.Open(Page);
        Assert.EndsWith("handler=WorkOut", client.Page.QuerySelector("form[data-live]")!.GetAttribute("data-live"));
        await client.Press("Work out", ("Input.Speeds[0].Text", "8.1 8.2 8.3 ms"));
        Assert.Equal("8.2", Row(client, "1/125")[5]);
        Assert.Equal("8.1 8.2 8.3 ms", client.Value("Input.Speeds[0].Text"));

        client.Http.DefaultRequestHeaders.Add("X-Requested-With", "fetch");
        await client.Press("Work out", ("Input.Speeds[0].Text", "10 ms abc"));
        Assert.Equal(HttpStatusCode.OK, client.Status);
        Assert.Null(client.Page.QuerySelector("header"));
        Assert.Contains("“abc” is not a time", client.Text);
        Assert.False(await app.WithDb(db => db.Readings.AnyAsync()));
    }

    [Fact]
    public async Task A_camera_without_marks_offers_to_enter_them()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open(Page);
        await client.Press("Save marked speeds", ("marks", "1 1/2 125"));
        Assert.Contains("“125” on a dial may mean 1/125 s or 125 s", client.Text);
        Assert.Equal("1 1/2 125", client.Value("marks"));
        await client.Press("Save marked speeds", ("marks", "1 1/2 1/125 B"));
        Assert.Equal(3, client.Page.QuerySelectorAll(".speed, .speeds .field").Length);
    }

    [Fact]
    public async Task A_reading_struck_out_keeps_its_reason_on_the_page()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/125"]);
        using var client = await app.SignedIn("bench");
        await client.Open(Page);
        await client.Press("Save readings", ("Input.Instrument", "Light gate"), ("Input.Speeds[0].Text", "8.1 80 ms"));
        await client.Press("Strike out", ("reason", "lamp <b>moved</b>"));
        Assert.Equal("1", Row(client, "1/125")[1]);
        Assert.Contains("struck out: lamp <b>moved</b>", client.Text);
        await client.Press("Count it again");
        Assert.Equal("2", Row(client, "1/125")[1]);
    }

    [Fact]
    public async Task Before_and_after_stand_side_by_side_on_the_sheet_with_the_chart()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/125"]);
        using var client = await app.SignedIn("bench");
        foreach (var (phase, readings) in new[] { ("as-received", "12 12.1 12.2 ms"), ("after-service", "8 8.1 8.2 ms") })
        {
            await client.Open($"/repairs/2026-0001/shutter/{phase}");
            await client.Press("Save readings", ("Input.Instrument", "Light gate"), ("Input.Speeds[0].Text", readings));
        }

        await client.Open("/repairs/2026-0001");
        var after = client.Page.QuerySelector("#after-service")!;
        var verdicts = after.QuerySelectorAll("td .verdict").Select(verdict => verdict.TextContent);
        Assert.Equal(["outside", "within"], verdicts);
        Assert.NotNull(after.QuerySelector("svg circle.before"));
        Assert.NotNull(after.QuerySelector("svg circle.after"));
        Assert.Null(client.Page.QuerySelector("#as-received svg circle.after"));
    }

    [Fact]
    public async Task Another_session_starts_empty_and_leaves_the_first_as_it_is()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/125"]);
        using var client = await app.SignedIn("bench");
        await client.Open(Page);
        await client.Press("Save readings", ("Input.Instrument", "Light gate"), ("Input.Speeds[0].Text", "8.1 ms"));
        await client.Open(client.Page.QuerySelectorAll("a").Single(link => link.TextContent == "Start another session").GetAttribute("href")!);
        await client.Press("Save readings", ("Input.Instrument", "Light gate"), ("Input.Speeds[0].Text", "8.4 8.5 ms"));
        Assert.Equal("2", Row(client, "1/125")[1]);
        Assert.Equal(2, await app.WithDb(db => db.ShutterTests.CountAsync()));
    }

    [Theory]
    [InlineData("/repairs/2026-0001/shutter/some-day")]
    [InlineData("/repairs/2026-9999/shutter/as-received")]
    [InlineData("/repairs/2026-0001/shutter/as-received/00000000-0000-0000-0000-000000000001")]
    public async Task What_is_not_there_is_not_found(string url)
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/125"]);
        using var client = await app.SignedIn("bench");
        await client.Open(url);
        Assert.Equal(HttpStatusCode.NotFound, client.Status);
    }

    private static List<string> Row(FormClient client, string mark) =>
        [.. client.Page.QuerySelectorAll("#figures tbody tr").Single(row => row.QuerySelector("th")!.TextContent.Trim() == mark)
            .Children.Select(cell => cell.TextContent.Trim())];
}
