using Microsoft.Playwright;

namespace RepairShop.Browser.Tests.WholeJob;

/// <summary>What happens at the bench: checks, readings, findings, hours, parts.</summary>
internal static class Bench
{
    public static async Task CheckAsync(Hands hands, string link, string selfTimer)
    {
        await hands.FollowAsync(link);
        await hands.TickAsync("Focus at infinity", "fine");
        await hands.TickAsync("Film transport", selfTimer);
        await hands.PressAsync("Save checks");
        await Assertions.Expect(Check(hands, "Film transport", selfTimer)).ToBeCheckedAsync();
    }

    public static async Task MeasureAsync(Hands hands, IReadOnlyList<Measured> speeds)
    {
        await hands.PressAsync(hands.Page.GetByRole(AriaRole.Navigation, new() { Name = "Work on this repair" }).GetByRole(AriaRole.Link, new() { Name = "Shutter" }));
        await TypeReadingsAsync(hands, speeds);
    }

    public static async Task TypeReadingsAsync(Hands hands, IReadOnlyList<Measured> speeds)
    {
        await Assertions.Expect(hands.Field("Measured with")).ToHaveValueAsync("Light gate no. 2");
        await hands.TypeAsync("Room", "20.5");
        foreach (var speed in speeds)
            await hands.TypeAsync(speed.Mark, speed.Typed);
        await hands.PressAsync("Save readings");
        foreach (var speed in speeds)
        {
            var row = hands.Page.Locator("#figures tbody tr").Filter(new() { Has = hands.Page.GetByRole(AriaRole.Rowheader, new() { Name = speed.Mark, Exact = true }) });
            await Assertions.Expect(row.Locator("td").First).ToHaveTextAsync($"{speed.Seconds.Length}");
            await Assertions.Expect(row.GetByRole(AriaRole.Cell, new() { Name = speed.ErrorStops, Exact = true }).First).ToBeVisibleAsync();
        }
    }

    public static async Task FindAsync(Hands hands)
    {
        await hands.TypeAsync("Component", "Slow train");
        await hands.TickAsync("Contaminated");
        await hands.TypeAsync("What was found", "Old oil has set on the pallet and the wheels.");
        await hands.TypeAsync("What was done", "Cleaned, dried and oiled at the pivots.");
        await hands.PressAsync("Add finding");
        await Assertions.Expect(hands.Page.Locator(".findings")).ToContainTextAsync("Old oil has set");
    }

    public static async Task WriteHoursAsync(Hands hands)
    {
        await hands.FollowAsync("Hours");
        await hands.TypeAsync("or how long", Figures.Worked);
        await hands.TypeAsync(hands.Page.Locator("form[data-keep=hours]").GetByLabel("Activity (optional)", new() { Exact = true }), "Shutter stripped and cleaned");
        await hands.PressAsync("Add hours");
        await Assertions.Expect(hands.Page.Locator("main table")).ToContainTextAsync("2 h 20 min");
    }

    public static async Task FitPartAsync(Hands hands)
    {
        await hands.FollowAsync("Parts");
        await hands.TypeAsync("or a one-off line", "Slow-train spring");
        await hands.TypeAsync("Price of one", Figures.Plain(Figures.PartPrice));
        await hands.PressAsync("Add part");
        await Assertions.Expect(hands.Page.Locator("main table")).ToContainTextAsync("Slow-train spring");
    }

    private static ILocator Check(Hands hands, string legend, string outcome) =>
        hands.Page.GetByRole(AriaRole.Group, new() { Name = legend, Exact = true }).GetByLabel(outcome, new() { Exact = true });
}
