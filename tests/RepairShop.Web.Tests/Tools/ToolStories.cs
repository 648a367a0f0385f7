using System.Net;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Tools;

public class ToolStories(PostgresServer server)
{
    private static readonly (string, string)[] Spanner =
    [
        ("Input.Spanner.OuterDiameter", "33"), ("Input.Spanner.InnerDiameter", "26"), ("Input.Spanner.Depth", "12"), ("Input.Spanner.PinCircle", "28,5"),
        ("Input.Spanner.PinWidth", "1,8"), ("Input.Spanner.PinHeight", "1"),
    ];

    private static readonly (string, string)[] Mount =
    [
        ("Input.Mount.RecessDiameter", "32"), ("Input.Mount.RecessDepth", "6"), ("Input.Mount.NotchCircle", "28,5"), ("Input.Mount.NotchWidth", "2"),
        ("Input.Mount.NotchDepth", "1,2"),
    ];

    [Fact]
    public async Task A_tool_is_added_found_changed_retired_and_brought_back()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        await client.Open("/tools");
        Assert.Contains("No tools yet.", client.Text);
        await client.Open("/tools/add");
        await client.Press("Add tool", [("Input.Name", "<b>Spanner</b>"), ("Input.Kind", "RingSpanner"), ("Input.Fits", "Rear ring"), .. Spanner]);
        Assert.Equal("Tool added.", client.Notice);
        Assert.Contains("Ø 33.00 / 26.00, 12.00 deep, 2 pins 1.80 × 1.00 on 28.50 mm", client.Text);
        await client.Open(client.Page.QuerySelector(".list a")!.GetAttribute("href")!);
        Assert.Equal("<b>Spanner</b>", client.Heading);
        await client.Press("Save tool", ("Input.Spanner.OuterDiameter", "31,5"));
        Assert.Equal(("Tool saved.", "31.5"), (client.Notice, client.Value("Input.Spanner.OuterDiameter")));
        await client.Press("Retire it");
        Assert.Empty(client.Page.QuerySelectorAll(".list tbody tr"));
        await client.Press("Undo");
        Assert.Equal("Tool is in use again.", client.Notice);
    }

    [Fact]
    public async Task Inches_are_kept_and_come_back_as_they_were_typed()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        await client.Open("/tools/add");
        await client.Press("Add tool", ("Input.Name", "Blank"), ("Input.Kind", "RingSpanner"), ("Input.Unit", "Inch"), ("Input.Spanner.OuterDiameter", "1.25"));
        await client.Open(client.Page.QuerySelector(".list a")!.GetAttribute("href")!);
        Assert.Equal("1.25", client.Value("Input.Spanner.OuterDiameter"));
    }

    [Fact]
    public async Task Nonsense_is_named_at_its_field_and_nothing_typed_is_lost()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        await client.Open("/tools/add");
        await client.Press("Add tool", ("Input.Name", "Spanner"), ("Input.Kind", "RingSpanner"), ("Input.Spanner.OuterDiameter", "20"), ("Input.Spanner.InnerDiameter", "25"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, client.Status);
        Assert.NotNull(client.Page.QuerySelector("#Input_Spanner_InnerDiameter-error"));
        Assert.Equal(("Spanner", "20"), (client.Value("Input.Name"), client.Value("Input.Spanner.OuterDiameter")));
        await client.Press("Add tool", ("Input.Spanner.Pins", "two"));
        Assert.NotNull(client.Page.QuerySelector("#Input_Spanner_Pins-error"));
    }

    [Fact]
    public async Task Two_tabs_on_one_tool_see_both_values_and_saving_again_is_a_choice()
    {
        await using var app = await ShopApp.Start(server);
        using var one = await app.SignedIn("bench");
        using var other = await app.SignedIn("owner");
        await one.Open("/tools/add");
        await one.Press("Add tool", ("Input.Name", "Jig"), ("Input.Kind", "Jig"));
        var address = one.Page.QuerySelector(".list a")!.GetAttribute("href")!;
        await one.Open(address);
        await other.Open(address);
        await one.Press("Save tool", ("Input.Place", "Drawer 1"));
        await other.Press("Save tool", ("Input.Place", "Drawer 2"));
        Assert.Contains("Drawer 1", other.Page.QuerySelector(".changed")!.TextContent);
        await other.Press("Save tool");
        Assert.Equal(("Tool saved.", "Drawer 2"), (other.Notice, other.Value("Input.Place")));
    }

    [Fact]
    public async Task A_fit_is_worked_out_kept_and_taken_from_the_register_again()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        await client.Open("/tools/fit");
        await client.Press("Work it out", [.. Spanner, .. Mount]);
        Assert.Contains("It does not go in.", client.Text);
        Assert.Contains("Turn the outside down by 1.20 mm, to 31.80 mm.", client.Text);
        Assert.NotNull(client.Page.QuerySelector("svg.true-size"));
        await client.Press("Keep mount", ("mountCamera", "Example Works 1"), ("mountName", "Rear ring"));
        Assert.Equal("Mount kept in the register.", client.Notice);
        await client.Open(client.Page.QuerySelector("main a[href*='/tools/fit?mount']")!.GetAttribute("href")!);
        Assert.Equal("32", client.Value("Input.Mount.RecessDiameter"));
        Assert.Empty(client.Errors);
        await client.Press("Work it out", Spanner);
        await client.Press("Keep spanner", ("toolName", "As bought"));
        Assert.Equal(("Spanner kept in the register.", "As bought"), (client.Notice, client.Heading));
        await client.Open("/tools/fit");
        var spanner = client.Page.QuerySelectorAll("#tool option").Single(option => option.TextContent == "As bought").GetAttribute("value")!;
        await client.Press("Take measures", ("tool", spanner));
        Assert.Equal("28.5", client.Value("Input.Spanner.PinCircle"));
    }

    [Fact]
    public async Task Keeping_needs_a_name_and_a_missing_measure_is_named()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        await client.Open("/tools/fit");
        await client.Press("Work it out", [.. Spanner]);
        Assert.Equal("Recess depth is empty: measure it.", Assert.Single(client.Errors));
        await client.Press("Work it out", Mount);
        await client.Press("Keep spanner", ("toolName", " "));
        Assert.Equal("Give it a name before it is kept.", Assert.Single(client.Errors));
        Assert.Equal("33", client.Value("Input.Spanner.OuterDiameter"));
    }

    [Fact]
    public async Task The_drawing_is_full_size_in_millimetres_with_a_line_to_check_the_printer_by()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        await client.Open("/tools/fit");
        await client.Press("Work it out", [.. Spanner, .. Mount]);
        await client.Open(client.Page.QuerySelector("a[href*='/tools/fit/drawing']")!.GetAttribute("href")!);
        Assert.Contains("Scale 1:1", client.Text);
        var drawings = client.Page.QuerySelectorAll("svg.true-size");
        Assert.Equal(2, drawings.Length);
        Assert.All(drawings, svg => Assert.Equal(svg.GetAttribute("viewBox")!.Split(' ')[2] + "mm", svg.GetAttribute("width")));
        Assert.Empty(client.Page.QuerySelectorAll("svg [style]"));
        // The outside circle is drawn with half of 33 mm.
        Assert.Contains(drawings[0].QuerySelectorAll("circle"), circle => circle.GetAttribute("r") == "16.5");
        Assert.Contains("does not fit", client.Text);
    }

    [Fact]
    public async Task A_drawing_of_nothing_leads_back_to_the_fit()
    {
        await using var app = await ShopApp.Start(server);
        using var client = await app.SignedIn("bench");
        await client.Open("/tools/fit/drawing");
        Assert.Equal("/tools/fit", client.Url);
    }
}
