using System.Net;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Work;

public class WorkStories(PostgresServer server)
{
    [Fact]
    public async Task Checks_are_ticked_and_after_service_shows_what_was_before()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open("/repairs/2026-0001/checks/as-received");
        await client.Press("Save checks", ("Input.Rows[8].Outcome", "Faulty"), ("Input.Rows[8].Value", "9,2"), ("Input.Rows[8].Note", "stalls in the cold"));
        Assert.Equal("Checks saved.", client.Notice);
        await client.Open("/repairs/2026-0001/checks/after-service");
        Assert.Contains("as received: faulty, 9.2 s, stalls in the cold", client.Text);
    }

    [Fact]
    public async Task Two_tabs_on_one_check_see_both_values_and_saving_again_is_a_choice()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var one = await app.SignedIn("bench");
        using var other = await app.SignedIn("owner");
        await one.Open("/repairs/2026-0001/checks/as-received");
        await other.Open("/repairs/2026-0001/checks/as-received");
        await one.Press("Save checks", ("Input.Rows[4].Outcome", "Fine"));
        await other.Press("Save checks", ("Input.Rows[4].Outcome", "Faulty"), ("Input.Rows[4].Note", "slips"));
        Assert.Equal("Film transport fine faulty, slips", string.Join(' ', other.Page.QuerySelectorAll(".changed tbody tr > *").Select(cell => cell.TextContent.Trim())));
        Assert.Equal("slips", other.Value("Input.Rows[4].Note"));
        await other.Press("Save checks");
        Assert.Equal("Checks saved.", other.Notice);
        await one.Open("/repairs/2026-0001/checks/as-received");
        Assert.Equal(("Faulty", "slips"), (one.Value("Input.Rows[4].Outcome"), one.Value("Input.Rows[4].Note")));
    }

    [Fact]
    public async Task A_finding_is_added_judged_removed_and_undone()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open("/repairs/2026-0001/findings");
        await client.Press("Add finding",
            ("Input.Component", "<script>alert(1)</script>"), ("Input.GaugeName", "Run"), ("Input.GaugeValue", "7,9"), ("Input.GaugeUnit", "s"),
            ("Input.GaugeLow", "8"), ("Input.GaugeHigh", "12"));
        Assert.Equal("Finding added.", client.Notice);
        Assert.Equal("<script>alert(1)</script>", client.Page.QuerySelector(".findings strong")!.TextContent);
        Assert.NotNull(client.Page.QuerySelector(".findings .verdict.outside"));
        await client.Press("Remove <script>alert(1)</script>");
        Assert.Empty(client.Page.QuerySelectorAll(".findings li"));
        await client.Press("Undo");
        Assert.Single(client.Page.QuerySelectorAll(".findings > li"));
    }

    [Fact]
    public async Task Two_tabs_on_one_finding_see_both_values_and_nothing_typed_is_lost()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var one = await app.SignedIn("bench");
        using var other = await app.SignedIn("owner");
        await one.Open("/repairs/2026-0001/findings");
        await one.Press("Add finding", ("Input.Component", "Mirror"));
        var edit = one.Page.QuerySelector(".findings a[href*='/findings/']")!.GetAttribute("href")!;
        await one.Open(edit);
        await other.Open(edit);
        await one.Press("Save finding", ("Input.Text", "Silver gone"));
        await other.Press("Save finding", ("Input.Text", "Scratched"));
        Assert.Contains("Silver gone", other.Page.QuerySelector(".changed")!.TextContent);
        Assert.Equal("Scratched", other.Value("Input.Text"));
        await other.Press("Save finding");
        Assert.Equal("Finding saved.", other.Notice);
    }

    [Fact]
    public async Task A_part_is_received_used_and_the_last_one_is_named_when_it_is_gone()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = await app.SignedIn("bench");
        await client.Open("/stock/add");
        await client.Press("Add part", ("Input.Name", "Cell spring"), ("Input.Price", "4,50"), ("Input.ReorderLevel", "1"));
        await client.Press("Bring in", ("quantity", "1"));
        Assert.Equal("Received.", client.Notice);
        await client.Open("/repairs/2026-0001/parts");
        await client.Press("Add part", ("Input.Part", "P0001"), ("Input.Quantity", "1"));
        Assert.Equal("Part added.", client.Notice);
        await client.Press("Add part", ("Input.Part", "P0001"), ("Input.Quantity", "1"));
        Assert.Contains("There is none of P0001 Cell spring left", Assert.Single(client.Errors));
        Assert.Contains("There is none of P0001 Cell spring left", client.Page.QuerySelector("#Input_Quantity-error")!.TextContent);
        Assert.Equal("Input_Quantity-error", client.Page.QuerySelector("#Input_Quantity")!.GetAttribute("aria-describedby"));
        Assert.Equal("P0001", client.Value("Input.Part"));
        await client.Press("Take off Cell spring");
        Assert.Equal("Taken off, and put back into stock.", client.Notice);
        await client.Open("/stock?show=reorder");
        Assert.Contains("Cell spring", client.Text);
    }

    [Theory]
    [InlineData("/repairs/2026-0001/checks/as-received")]
    [InlineData("/repairs/2026-0001/shutter/during-work")]
    [InlineData("/repairs/2026-0001/findings")]
    [InlineData("/repairs/2026-0001/hours")]
    [InlineData("/repairs/2026-0001/parts")]
    [InlineData("/repairs/2026-0001/bench")]
    [InlineData("/stock")]
    public async Task Nobody_sees_the_work_without_signing_in(string url)
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app);
        using var client = app.Client();
        await client.Open(url);
        Assert.Equal(("Sign in", HttpStatusCode.OK), (client.Heading, client.Status));
    }

    [Fact]
    public async Task The_next_thing_at_the_bench_moves_on_as_it_is_done()
    {
        await using var app = await ShopApp.Start(server);
        await OneRepair.BookedIn(app, marks: ["1/125"]);
        using var client = await app.SignedIn("bench");
        await client.Open("/repairs/2026-0001/bench");
        Assert.Contains("Check it as received", client.Text);
        await client.Open("/repairs/2026-0001/checks/as-received");
        await client.Press("Save checks", ("Input.Rows[0].Outcome", "Fine"));
        await client.Open("/repairs/2026-0001/bench");
        Assert.Contains("Measure the shutter as received", client.Text);
    }
}
