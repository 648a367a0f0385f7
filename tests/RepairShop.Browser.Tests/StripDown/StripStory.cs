using System.Text.RegularExpressions;
using Microsoft.Playwright;
using RepairShop.Browser.Tests.Scripts;
using Xunit;

namespace RepairShop.Browser.Tests.StripDown;

/// <summary>A camera taken apart and put together on a phone beside it, by touch.</summary>
public sealed class StripStory(OpenShop open, Chromium chromium) : IClassFixture<OpenShop>
{
    private const string Spring = "Cell spring";

    private static readonly (string What, string Held, int Count)[] Off =
    [
        ("Front ring", "ring", 1), ("Name plate", "friction", 1), ("Speed ring", "lies loose", 1), ("Cam plate", "lies loose", 1),
        ("Cover screws", "screw", 3), ("Shutter cover", "lies loose", 1), ("Speed lever", "clip", 1), ("Slow train screws", "screw", 2),
        ("Slow train", "lies loose", 1), (Spring, "spring", 1), ("Delay pallet", "friction", 1), ("Self-timer gears", "lies loose", 3),
        ("Self-timer spring", "spring", 1), ("Cocking lever", "clip", 1), ("Release lever", "clip", 1), ("Release spring", "spring", 1),
        ("Back plate screws", "screw", 4), ("Back plate", "lies loose", 1), ("Driving ring", "lies loose", 1), ("Blade spring", "spring", 1),
        ("Blades", "lies loose", 5), ("Aperture ring", "ring", 1), ("Aperture leaves", "lies loose", 10), ("Rear cell", "ring", 1), ("Lens board", "adhesive", 1),
    ];

    private static readonly string[] Photos = ["tray.jpg", "gears-clean.jpg", "gears-thick-oil.jpg", "blades-clean.jpg", "blades-oily.jpg"];

    private string At => $"{open.Shop.Address}/repairs/{open.Repair}";

    [Fact]
    public async Task Twenty_five_steps_off_with_photos_three_faults_found_and_ready_is_refused_until_the_last_spring_is_back()
    {
        await using var context = await chromium.Browser.NewContextAsync(new()
        {
            ViewportSize = new() { Width = 390, Height = 844 },
            HasTouch = true,
            IsMobile = true,
            StorageState = open.SignedIn,
        });
        var hands = new TouchHands(await context.NewPageAsync());
        await TakeApartAsync(hands);
        await FindFaultsAsync(hands);
        await PutTogetherWithoutTheSpringAsync(hands);
        await CallReadyAsync(hands);
    }

    private async Task TakeApartAsync(Hands hands)
    {
        await AtTheBench.OpenAsync(hands, open.Shop.Address, open.Repair);
        foreach (var ((what, held, count), i) in Off.Select((step, i) => (step, i)))
        {
            await Assertions.Expect(hands.Field("Cell")).ToHaveValueAsync(Cell(i));
            await hands.TickAsync("Held by", held);
            if (held == "spring")
                await hands.TickAsync("Remember", "easily lost");
            await AtTheBench.AddAsync(hands, what, Photos[i % Photos.Length], count);
            await Assertions.Expect(hands.Page.Locator("#recent .strip-list > li").First).ToContainTextAsync(what);
        }
        await AtTheBench.ExpectAllSentAsync(hands);
        Assert.Equal(Off.Select(step => Counted(step.What, step.Count)), await AtTheBench.RecordAsync(hands, open.Shop.Address, open.Repair));
        Assert.Equal(Off.Select((_, i) => Cell(i)), await hands.Page.Locator(".strip-list .cell").AllInnerTextsAsync());
        await Assertions.Expect(hands.Page.Locator(".strip-list .photos img")).ToHaveCountAsync(Off.Length);
    }

    private static async Task FindFaultsAsync(Hands hands)
    {
        await hands.FollowAsync("Go on at the bench");
        await hands.FollowAsync("Add a finding");
        foreach (var (component, condition, found) in new[]
            { ("Slow train", "Contaminated", "Old oil has set on the pallet."), ("Blades", "Contaminated", "Oily at the tips."), ("Release spring", "Damaged", "Leg bent outwards.") })
        {
            await hands.TypeAsync("Component", component);
            await hands.TickAsync(condition);
            await hands.TypeAsync("What was found", found);
            await hands.PressAsync("Add finding");
            await Assertions.Expect(hands.Page.Locator(".findings")).ToContainTextAsync(found);
        }
        await Assertions.Expect(hands.Page.Locator(".findings > li")).ToHaveCountAsync(3);
    }

    private async Task PutTogetherWithoutTheSpringAsync(Hands hands)
    {
        await hands.GoAsync($"{At}/strip-down/reassembly");
        foreach (var (what, _, count) in Off.Reverse().Where(step => step.What != Spring))
            await hands.PressAsync(Refitted(hands, Counted(what, count)));
        await Assertions.Expect(hands.Page.Locator(".progress-words")).ToContainTextAsync($"{Off.Sum(step => step.Count) - 1} of {Off.Sum(step => step.Count)} accounted for, 1 still out");
    }

    private async Task CallReadyAsync(Hands hands)
    {
        await LetTheRestPassAsync(hands);
        await hands.Page.GetByRole(AriaRole.Button, new() { Name = "Call it ready", Exact = true }).TapAsync();
        await Assertions.Expect(hands.Page.Locator(".form-errors")).ToContainTextAsync($"Still out of the camera: {Spring} (tray 1, {Cell(Array.FindIndex(Off, step => step.What == Spring))})");
        await hands.FollowAsync("Put them back");
        await hands.PressAsync(Refitted(hands, Spring));
        await Assertions.Expect(hands.Page.Locator("main")).ToContainTextAsync("nothing is left in the tray");
        await hands.GoAsync($"{At}/ready");
        await hands.PressAsync("Call it ready");
        await Assertions.Expect(hands.Page.Locator(".notice")).ToContainTextAsync($"Repair {open.Repair} is ready to go home.");
    }

    /// <summary>Checks, papers and money are told in another story.</summary>
    private async Task LetTheRestPassAsync(Hands hands)
    {
        await hands.GoAsync($"{At}/ready");
        while (await hands.Page.GetByRole(AriaRole.Link, new() { Name = "let pass" }).CountAsync() > 0)
        {
            await hands.FollowAsync("let pass");
            await hands.TypeAsync("Reason", "Not part of this story");
            await hands.PressAsync("Let it pass");
            await hands.GoAsync($"{At}/ready");
        }
    }

    /// <summary>The part's name is there for screen readers only; a browser may set it off with a blank.</summary>
    private static ILocator Refitted(Hands hands, string part) =>
        hands.Page.GetByRole(AriaRole.Button, new() { NameRegex = new($@"^Refitted\s*:\s*{Regex.Escape(part)}$") });

    private static string Cell(int i) => $"{(char)('A' + (i / 8))}{(i % 8) + 1}";

    private static string Counted(string what, int count) => count == 1 ? what : $"{count} × {what}";
}
