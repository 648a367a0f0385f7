using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.StripDown;

/// <summary>Trays, the wash, and the way back in.</summary>
public class ReassemblyStories(PostgresServer server)
{
    private const string At = "/repairs/2026-0001/strip-down";

    [Fact]
    public async Task Ready_is_refused_naming_what_is_still_out_with_its_cell_until_the_last_piece_is_accounted_for()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await StripDownStories.Begun(app);
        await StripDownStories.Add(client, "Cover screw", ("Input.Count", "3"));
        await StripDownStories.Add(client, "Cell spring", ("Input.HeldBy", "Spring"), ("Input.Remember", "EasilyLost"));
        await client.Open($"{At}/reassembly");
        Assert.Equal("Cell spring", client.Page.QuerySelector(".strip-list > li.next .what strong")!.TextContent);
        Assert.Contains("tension", client.Text);
        await client.Press("Refitted: 3 × Cover screw", ("note", "one from the stock"));
        Assert.Contains("3 of 4 accounted for, 1 still out", client.Text);
        using var owner = await app.SignedIn();
        await owner.Open("/repairs/2026-0001/ready");
        await owner.Press("Call it ready");
        Assert.Contains("Still out of the camera: Cell spring (tray 1, A2).", Assert.Single(owner.Errors));

        await client.Open(StripDownStories.Link(client, "Replaced, in the bag, written off: Cell spring"));
        await client.Press("Account for it", ("Fate.Fate", "WrittenOff"));
        Assert.Contains("The reason is empty", Assert.Single(client.Errors));
        await client.Press("Account for it", ("Fate.Note", "jumped away and was not found"));
        await client.Open($"{At}/reassembly");
        Assert.Contains("nothing is left in the tray", client.Text);
        await owner.Press("Call it ready");
        Assert.DoesNotContain("Still out of the camera", Assert.Single(owner.Errors));
    }

    [Fact]
    public async Task A_tick_too_early_is_taken_back_and_a_screw_only_backed_off_is_tightened()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await StripDownStories.Begun(app);
        await StripDownStories.Add(client, "Eccentric", ("Input.Remember", "BackOffOnly"), ("Input.Cell", ""));
        await StripDownStories.Add(client, "Top plate");
        await client.Open($"{At}/reassembly");
        await client.Press("Refitted: Top plate");
        await client.Press("Not yet: Top plate");
        Assert.Contains("1 piece out", client.Text);
        await client.Press("Refitted: Top plate");
        await client.Press("Tight again: Eccentric");
        Assert.Contains("all 2 accounted for", client.Text);
    }

    [Fact]
    public async Task One_bath_for_many_parts_is_written_on_each_and_needs_one_ticked()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await StripDownStories.Begun(app);
        await StripDownStories.Add(client, "Gear");
        await StripDownStories.Add(client, "Pallet");
        await client.Open($"{At}/wash");
        await client.Press("Write it down for all ticked", ("Input.Lubrication", "LeftDry"));
        Assert.NotEmpty(client.Errors);
        await client.Press("Write it down for all ticked", ("Picked", client.Page.QuerySelector("[name=Picked]")!.GetAttribute("value")!), ("Input.Lubrication", "LeftDry"));
        Assert.Equal(["left dry", "–"], client.Page.QuerySelectorAll("#wash-list td[data-label=Lubricated]").Select(cell => cell.TextContent.Trim()));
        Assert.Contains("safety sheet", client.Text);
    }

    [Fact]
    public async Task A_cell_with_look_alikes_warns_and_a_tray_keeps_what_lies_in_it()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await StripDownStories.Begun(app);
        await StripDownStories.Add(client, "Short plate screw", ("Input.Cell", "B2"), ("Input.Remember", "LookAlike"));
        await StripDownStories.Add(client, "Long plate screw", ("Input.Cell", "b2"));
        Assert.Contains("B2 holds look-alikes that must not be swapped", client.Text);
        await client.Open($"{At}/trays");
        Assert.Contains("must not be swapped", client.Page.QuerySelector("td.warned")!.TextContent);
        await client.Press("Save tray 1", ("rows", "1"));
        Assert.Contains("something lies in B2", Assert.Single(client.Errors));
        await client.Press("Take tray 1 away");
        Assert.Contains("Tray 1 can't be taken away", Assert.Single(client.Errors));
    }

    [Fact]
    public async Task The_page_of_a_repair_that_is_not_there_says_so()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        foreach (var page in new[] { "", "/bench", "/trays", "/wash", "/reassembly", $"/steps/{Guid.Empty}", $"/items/{Guid.Empty}" })
        {
            await client.Open($"/repairs/2026-9999/strip-down{page}");
            Assert.Equal(System.Net.HttpStatusCode.NotFound, client.Status);
        }
    }
}
