using Microsoft.Playwright;
using Xunit;

namespace RepairShop.Browser.Tests.Scripts;

/// <summary>What the small scripts add to pages that work without them.</summary>
public sealed class SmallScripts(OpenShop open, Chromium chromium) : IClassFixture<OpenShop>, IAsyncLifetime
{
    private IBrowserContext context = null!;
    private IPage page = null!;
    private MouseHands hands = null!;

    public async ValueTask InitializeAsync()
    {
        context = await chromium.Browser.NewContextAsync(new() { ViewportSize = new() { Width = 1440, Height = 900 }, StorageState = open.SignedIn });
        page = await context.NewPageAsync();
        hands = new MouseHands(page);
    }

    public ValueTask DisposeAsync() => context.DisposeAsync();

    [Fact]
    public async Task A_button_pressed_twice_posts_once()
    {
        await hands.GoAsync($"{open.Shop.Address}/repairs/{open.Repair}/findings");
        var posts = 0;
        page.Request += (_, request) => posts += request.Method == "POST" ? 1 : 0;
        await hands.TypeAsync("Component", "Front standard");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add finding", Exact = true }).DblClickAsync();
        await Assertions.Expect(page.Locator(".findings")).ToContainTextAsync("Front standard");
        Assert.Equal(1, posts);
        await Assertions.Expect(page.Locator(".findings > li").Filter(new() { HasText = "Front standard" })).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task A_slash_goes_to_the_find_box_but_stays_a_slash_inside_a_field()
    {
        await hands.GoAsync($"{open.Shop.Address}/bench");
        await page.Keyboard.PressAsync("/");
        await Assertions.Expect(page.Locator("[data-find]")).ToBeFocusedAsync();
        await Assertions.Expect(page.Locator("[data-find]")).ToHaveValueAsync("");
        await page.Keyboard.TypeAsync("1/2");
        await Assertions.Expect(page.Locator("[data-find]")).ToHaveValueAsync("1/2");
    }

    [Fact]
    public async Task Text_typed_comes_back_after_a_reload_and_is_forgotten_once_it_is_taken()
    {
        await hands.GoAsync($"{open.Shop.Address}/repairs/{open.Repair}/findings");
        await hands.TypeAsync("Component", "Bellows");
        await page.ReloadAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Bring it back" }).ClickAsync();
        await Assertions.Expect(hands.Field("Component")).ToHaveValueAsync("Bellows");
        await hands.PressAsync("Add finding");
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator(".findings")).ToContainTextAsync("Bellows");
        await Assertions.Expect(page.GetByText("Text typed here earlier")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Figures_appear_while_readings_are_typed()
    {
        await hands.GoAsync($"{open.Shop.Address}/repairs/{open.Repair}/shutter/as-received");
        foreach (var speed in WholeJob.Figures.AsReceived)
        {
            await hands.TypeAsync(speed.Mark, speed.Typed);
            await Assertions.Expect(page.Locator("#figures")).ToContainTextAsync(speed.ErrorStops);
        }
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#figures")).ToContainTextAsync("No figures yet");
    }

    [Fact]
    public async Task Text_sent_after_the_session_has_ended_comes_back_after_signing_in()
    {
        await hands.GoAsync($"{open.Shop.Address}/repairs/{open.Repair}/findings");
        await hands.TypeAsync("Component", "Rangefinder prism");
        await hands.TypeAsync("What was found", "Silvering gone at one edge.\nCement yellow.");
        await context.ClearCookiesAsync(new() { Name = "session" });
        await hands.PressAsync("Add finding");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Your text is safe");
        await hands.TypeAsync("E-mail", WholeJob.Figures.OwnerEmail);
        await hands.TypeAsync("Password", WholeJob.Figures.OwnerPassword);
        await hands.PressAsync("Sign in");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Silvering gone at one edge.");
        await hands.PressAsync(page.Locator("main").GetByRole(AriaRole.Button).First);
        await Assertions.Expect(page.Locator(".findings")).ToContainTextAsync("Silvering gone at one edge.");
    }
}
