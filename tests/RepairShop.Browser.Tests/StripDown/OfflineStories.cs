using Microsoft.Playwright;
using RepairShop.Browser.Tests.Scripts;
using RepairShop.Browser.Tests.WholeJob;
using Xunit;

namespace RepairShop.Browser.Tests.StripDown;

/// <summary>The connection comes and goes while a camera is taken apart: nothing written is lost, nothing is there twice.</summary>
public sealed class OfflineStories(OpenShop open, Chromium chromium) : IClassFixture<OpenShop>, IAsyncLifetime
{
    private IBrowserContext context = null!;
    private IPage page = null!;
    private MouseHands hands = null!;

    private string Bench => $"{open.Shop.Address}/repairs/{open.Repair}/strip-down/bench";

    public async ValueTask InitializeAsync()
    {
        context = await chromium.Browser.NewContextAsync(new() { ViewportSize = new() { Width = 390, Height = 844 }, StorageState = open.SignedIn });
        page = await context.NewPageAsync();
        hands = new MouseHands(page);
        await AtTheBench.OpenAsync(hands, open.Shop.Address, open.Repair);
    }

    public ValueTask DisposeAsync() => context.DisposeAsync();

    [Fact]
    public async Task Entries_typed_offline_survive_a_reload_and_arrive_once_in_their_order_with_their_photos()
    {
        string[] typed = ["Lost line ring", "Lost line screws", "Lost line plate"];
        await context.SetOfflineAsync(true);
        foreach (var what in typed)
            await AtTheBench.AddAsync(hands, what, "tray.jpg");
        await Assertions.Expect(page.Locator("#queue li")).ToHaveTextAsync(typed.Select(what => $"{what} kept on this device, will be sent").ToArray());
        await Assert.ThrowsAsync<PlaywrightException>(() => page.ReloadAsync());
        await context.SetOfflineAsync(false);
        await hands.GoAsync(Bench);
        await AtTheBench.ExpectAllSentAsync(hands);
        Assert.Equal(typed, await KeptAsync("Lost line"));
        await Assertions.Expect(page.Locator(".strip-list > li").Filter(new() { HasText = "Lost line" }).Locator("img")).ToHaveCountAsync(3);
    }

    [Fact]
    public async Task The_cell_moves_on_without_a_connection_and_entries_go_by_themselves_when_it_is_back()
    {
        await context.SetOfflineAsync(true);
        await hands.TypeAsync("Cell", "D1");
        foreach (var cell in new[] { "D2", "D3", "D4" })
        {
            await AtTheBench.AddAsync(hands, $"Row D before {cell}");
            await Assertions.Expect(hands.Field("Cell")).ToHaveValueAsync(cell);
        }
        await context.SetOfflineAsync(false);
        await AtTheBench.ExpectAllSentAsync(hands);
        await Assertions.Expect(page.Locator("#recent .strip-list > li .cell").First).ToHaveTextAsync("D3");
        Assert.Equal(["Row D before D2", "Row D before D3", "Row D before D4"], await KeptAsync("Row D"));
    }

    [Fact]
    public async Task An_entry_whose_answer_was_lost_on_the_way_is_sent_again_and_there_once_with_one_photo()
    {
        await page.AddInitScriptAsync(
            """
            const whole = fetch;
            let lost = false;
            globalThis.fetch = async (...asked) => {
              const answer = await whole(...asked);
              if (asked[1]?.method === "POST" && !lost) {
                lost = true;
                throw new TypeError("the answer was lost");
              }
              return answer;
            };
            """);
        await hands.GoAsync(Bench);
        await AtTheBench.AddAsync(hands, "Unheard lever", "blades-clean.jpg");
        await Assertions.Expect(page.Locator("#queue")).ToContainTextAsync("kept on this device");
        await AtTheBench.ExpectAllSentAsync(hands);
        Assert.Equal(["Unheard lever"], await KeptAsync("Unheard"));
        await Assertions.Expect(page.Locator(".strip-list > li").Filter(new() { HasText = "Unheard" }).Locator("img")).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task Two_open_pages_of_one_device_send_what_waits_once()
    {
        var other = await context.NewPageAsync();
        await other.GotoAsync(Bench);
        await context.SetOfflineAsync(true);
        string[] typed = [.. Enumerable.Range(1, 6).Select(i => $"Two pages {i}")];
        foreach (var what in typed)
            await AtTheBench.AddAsync(hands, what);
        await context.SetOfflineAsync(false);
        await AtTheBench.ExpectAllSentAsync(hands);
        Assert.Equal(typed, await KeptAsync("Two pages"));
    }

    [Fact]
    public async Task The_page_brought_back_from_before_begins_a_new_entry_and_does_not_swallow_it()
    {
        await AtTheBench.AddAsync(hands, "Before going away");
        await AtTheBench.ExpectAllSentAsync(hands);
        await hands.GoAsync($"{open.Shop.Address}/bench");
        await page.GoBackAsync();
        await AtTheBench.AddAsync(hands, "Once back again");
        await AtTheBench.ExpectAllSentAsync(hands);
        Assert.Equal(["Once back again"], await KeptAsync("Once back"));
        Assert.Equal(["Before going away"], await KeptAsync("Before going"));
    }

    [Fact]
    public async Task What_the_book_refuses_is_said_and_goes_back_into_the_form_with_its_photo()
    {
        await AtTheBench.AddAsync(hands, "Zero gears", "gears-clean.jpg", count: 0);
        await Assertions.Expect(page.Locator("#queue")).ToContainTextAsync("refused: 0 can't be a count");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it back into the form" }).ClickAsync();
        await Assertions.Expect(hands.Field("What came off")).ToHaveValueAsync("Zero gears");
        await AtTheBench.AddAsync(hands, "Zero gears", count: 2);
        await AtTheBench.ExpectAllSentAsync(hands);
        Assert.Equal(["2 × Zero gears"], await KeptAsync("Zero gears"));
        await Assertions.Expect(page.Locator(".strip-list > li").Filter(new() { HasText = "Zero gears" }).Locator("img")).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task Entries_written_while_signed_out_are_sent_after_signing_in_elsewhere()
    {
        await context.ClearCookiesAsync(new() { Name = "session" });
        await AtTheBench.AddAsync(hands, "Signed out nut");
        await Assertions.Expect(page.Locator("#queue")).ToContainTextAsync("You are signed out.");
        var other = new MouseHands(await context.NewPageAsync());
        await other.GoAsync($"{open.Shop.Address}/account/sign-in");
        await other.TypeAsync("E-mail", Figures.OwnerEmail);
        await other.TypeAsync("Password", Figures.OwnerPassword);
        await other.PressAsync("Sign in");
        await AtTheBench.ExpectAllSentAsync(hands);
        Assert.Equal(["Signed out nut"], await KeptAsync("Signed out"));
    }

    [Fact]
    public async Task Any_other_page_says_what_still_waits_on_this_device()
    {
        await page.RouteAsync("**/strip-down/bench", route => route.Request.Method == "POST" ? route.AbortAsync() : route.ContinueAsync());
        await AtTheBench.AddAsync(hands, "Waiting wheel");
        await Assertions.Expect(page.Locator("#queue")).ToContainTextAsync("kept on this device");
        await hands.GoAsync($"{open.Shop.Address}/bench");
        await Assertions.Expect(page.Locator(".notice")).ToContainTextAsync($"A step of the strip-down of {open.Repair} waits on this device");
        await page.UnrouteAllAsync();
        await hands.FollowAsync("Send now");
        await AtTheBench.ExpectAllSentAsync(hands);
        Assert.Equal(["Waiting wheel"], await KeptAsync("Waiting wheel"));
        await hands.GoAsync($"{open.Shop.Address}/bench");
        await Assertions.Expect(page.Locator(".notice")).ToHaveCountAsync(0);
    }

    /// <summary>The steps of the record whose words hold these, in their order.</summary>
    private async Task<IEnumerable<string>> KeptAsync(string words) =>
        (await AtTheBench.RecordAsync(hands, open.Shop.Address, open.Repair)).Where(what => what.Contains(words, StringComparison.Ordinal));
}
