using System.Net;
using RepairShop.Testing;
using RepairShop.Web.Tests.Work;
using Xunit;

namespace RepairShop.Web.Tests.Worksheets;

public class WorksheetStories(PostgresServer server)
{
    private const string Sheets = "/repairs/2026-0001/worksheets";

    [Fact]
    public async Task A_spring_is_read_and_kept_with_one_button_and_undone_with_another()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open($"{Sheets}/spring");
        Assert.Contains("Spring under tension", client.Text);
        await client.Press("Work it out", ("Input.Place", "4:10"));
        Assert.Contains("tired", client.Text);
        Assert.NotNull(client.Page.QuerySelector("svg.clock-face line.hand"));
        await client.Press("Keep as a finding");
        Assert.Equal("/repairs/2026-0001/findings", client.Url);
        Assert.Contains("Spring at rest: 4.17 o'clock (at most 3.5 o'clock)", client.Text);
        Assert.NotNull(client.Page.QuerySelector(".findings .verdict.outside"));
        await client.Press("Undo");
        Assert.Empty(client.Page.QuerySelectorAll(".findings > li"));
    }

    [Fact]
    public async Task What_cannot_be_read_is_said_at_its_field_and_stays_typed()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open($"{Sheets}/focus");
        await client.Press("Work it out", ("Input.Measured", "45,5x"), ("Input.Nominal", "45,46"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.Contains("45,5x", Assert.Single(client.Errors));
        Assert.Equal(("45,5x", "45,46"), (client.Value("Input.Measured"), client.Value("Input.Nominal")));
        Assert.DoesNotContain(client.Page.QuerySelectorAll("button"), button => button.TextContent == "Keep as a finding");
        await client.Press("Work it out", ("Input.Measured", ""));
        Assert.Equal("Measured register is empty: fill it in.", Assert.Single(client.Errors));
    }

    [Theory]
    [InlineData("45.51", "45.46")]
    [InlineData("45,51", "45,46")]
    public async Task Comma_and_point_give_the_same_shims(string measured, string nominal)
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open($"{Sheets}/focus");
        await client.Press("Work it out", ("Input.Measured", measured), ("Input.Nominal", nominal));
        Assert.Contains("Take out 0.05 mm of shim.", client.Text);
        await client.Press("Keep as a finding");
        Assert.Contains("Register error: 0.05 mm (-0.06 to 0.06 mm)", client.Text);
    }

    [Fact]
    public async Task Inches_are_worked_out_and_written_as_inches()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open($"{Sheets}/focus");
        await client.Press("Work it out", ("Input.Unit", "Inch"), ("Input.Measured", "1.7920"), ("Input.Nominal", "1.7900"));
        Assert.Contains("Take out 0.0020 in of shim.", client.Text);
        Assert.Contains("+0.051 mm, body too long", client.Text);
    }

    [Fact]
    public async Task A_coupling_table_is_ticked_while_turning_and_the_pair_that_is_off_is_kept()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/60", "1/125", "1/250", "1/500", "B"]);
        using var client = await app.SignedIn("bench");
        await client.Open($"{Sheets}/coupling");
        Assert.Equal("1/60 1/125 1/250 1/500 B", client.Value("Input.Speeds"));
        await client.Press("Make the table", ("Input.Value", "13"));
        Assert.Equal(
            ["1/60 f/11", "1/125 f/8", "1/250 f/5.6", "1/500 f/4"],
            client.Page.QuerySelectorAll(".coupling tbody tr").Select(row => $"{row.QuerySelector("th")!.TextContent.Trim()} {row.QuerySelector("td")!.TextContent.Trim()}"));
        await client.Press("Work it out", ("Input.Lines[1].Holds", "true"), ("Input.Lines[3].Read", "5,6"));
        Assert.Contains("+1.00", client.Text);
        await client.Press("Keep as a finding");
        Assert.Contains("1/500 stands at f/5.6 for f/4 (+1.00 stop)", client.Text);
    }

    [Fact]
    public async Task A_rangefinder_takes_infinity_as_it_is_engraved()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open($"{Sheets}/rangefinder");
        await client.Press("Work it out",
            ("Input.BaseLength", "40"), ("Input.Lines[0].Target", "∞"), ("Input.Lines[0].Shown", "30"), ("Input.Lines[1].Target", "1"), ("Input.Lines[1].Shown", "1"));
        Assert.Contains("+0.084", client.Text);
        await client.Press("Keep as a finding");
        Assert.Contains("Focus error at the film, target ∞: 0.0836 mm (-0.06 to 0.06 mm)", client.Text);
        await client.Open($"{Sheets}/rangefinder");
        await client.Press("Work it out", ("Input.BaseLength", "40"), ("Input.Lines[0].Target", "far"), ("Input.Lines[0].Shown", "30"));
        Assert.Equal("“far” is no distance: write a number, or ∞.", Assert.Single(client.Errors));
    }

    [Fact]
    public async Task A_meter_is_held_against_a_lamp_and_cautions_come_with_the_camera()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        await app.WithDb(async db =>
        {
            var camera = db.Cameras.Single();
            camera.Notes = "selenium meter";
            return await db.SaveChangesAsync(TestContext.Current.CancellationToken);
        });
        using var client = await app.SignedIn("bench");
        await client.Open($"{Sheets}/meter");
        Assert.Contains("Selenium cell: poisonous", client.Text);
        await client.Press("Work it out",
            ("Input.Light", "Luminance"), ("Input.Lines[0].Light", "512"), ("Input.Lines[0].Reading", "8 1/60"),
            ("Input.Lines[1].Light", "4096"), ("Input.Lines[1].Reading", "14,9"));
        Assert.Contains("−0.10 stop", client.Text);
        await client.Press("Keep as a finding");
        Assert.Contains("Largest meter error: -0.1 stop (-0.5 to 0.5 stop)", client.Text);
    }

    [Fact]
    public async Task The_wait_of_a_flash_capacitor_stands_under_its_warning()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open($"{Sheets}/flash");
        await client.Press("Work it out", ("Input.Microfarads", "120"));
        Assert.Contains("Measure before touching", client.Text);
        Assert.Contains("at least 7.0 s", client.Text);
        Assert.Contains("after five of them 2.2 V are still there", client.Text);
    }

    [Theory]
    [InlineData("")]
    [InlineData("/spring")]
    [InlineData("/focus")]
    [InlineData("/rangefinder")]
    [InlineData("/meter")]
    [InlineData("/coupling")]
    [InlineData("/flash")]
    public async Task A_repair_that_is_not_there_has_no_worksheet(string sheet)
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        await client.Open($"/repairs/2026-9999/worksheets{sheet}");
        Assert.Equal(HttpStatusCode.NotFound, client.Status);
    }

    [Fact]
    public async Task The_sheet_leads_to_the_worksheets_and_each_of_them_opens()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open("/repairs/2026-0001");
        Assert.NotNull(client.Page.QuerySelector($"a[href='{Sheets}']"));
        await client.Open(Sheets);
        var links = client.Page.QuerySelectorAll(".sheets a").Select(link => link.GetAttribute("href")!).ToList();
        Assert.Equal(6, links.Count);
        foreach (var link in links)
        {
            await client.Open(link);
            Assert.Equal(HttpStatusCode.OK, client.Status);
        }
    }
}
