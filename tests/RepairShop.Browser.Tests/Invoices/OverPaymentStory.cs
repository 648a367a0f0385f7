using Microsoft.Playwright;
using RepairShop.Browser.Tests.WholeJob;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Browser.Tests.Invoices;

/// <summary>More comes than is owed: the rest is kept as credit and pays the next invoice; then the statement of it all.</summary>
public sealed class OverPaymentStory(PostgresServer server, Chromium chromium)
{
    [Fact]
    public Task With_the_mouse_on_a_phone() => TellAsync(
        new() { ViewportSize = new() { Width = 390, Height = 844 }, HasTouch = true, IsMobile = true }, page => new MouseHands(page));

    [Fact]
    public Task By_keyboard_alone_at_a_desk() => TellAsync(new() { ViewportSize = new() { Width = 1280, Height = 900 } }, page => new KeyboardHands(page));

    private async Task TellAsync(BrowserNewContextOptions how, Func<IPage, Hands> handsOf)
    {
        await using var shop = await ShopProcess.StartAsync(server, demo: false, TestContext.Current.CancellationToken);
        await using var context = await chromium.Browser.NewContextAsync(how);
        var hands = handsOf(await context.NewPageAsync());
        var number = await Money.BeginAsync(hands, shop);
        await DepositAsync(hands);
        await OverPayAsync(hands);
        await hands.GoAsync($"{shop.Address}/repairs/{number}/invoice");
        await UseAsync(hands);
        await StatementAsync(hands);
    }

    private static async Task DepositAsync(Hands hands)
    {
        var ask = hands.Page.Locator("summary", new() { HasText = "Ask for a deposit" });
        await (hands is KeyboardHands ? ask.PressAsync("Enter") : ask.ClickAsync());
        await hands.TypeAsync("Deposit", "50");
        await hands.PressAsync("Begin a deposit invoice");
        await hands.PressAsync("Issue invoice");
        await Assertions.Expect(hands.Page.Locator("main")).ToContainTextAsync("€60.50"); // 50 and 21 %
    }

    /// <summary>80 for the 60.50.</summary>
    private static async Task OverPayAsync(Hands hands)
    {
        await hands.PressAsync(hands.Page.Locator("p.sub a"));
        await Assertions.Expect(hands.Field("Amount")).ToHaveValueAsync("60.5");
        await hands.TypeAsync("Amount", "80");
        await hands.PressAsync("Share it out, oldest first");
        await Assertions.Expect(hands.Page.GetByLabel("Share for I-")).ToHaveValueAsync("60.5");
        await hands.TickAsync("Keep what is not shared out as the customer’s credit");
        await hands.ExpectNothingForAxeAsync();
        await hands.PressAsync("Record money");
        await Assertions.Expect(hands.Page.Locator(".notice")).ToContainTextAsync("€19.50 are kept as credit");
        await hands.ExpectNothingForAxeAsync();
    }

    private static async Task UseAsync(Hands hands)
    {
        await hands.PressAsync(hands.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^As estimated") }));
        await hands.PressAsync("Issue invoice");
        await hands.ExpectNothingForAxeAsync();
        await hands.PressAsync("Pay €19.50 with the customer’s credit");
        await Assertions.Expect(hands.Page.Locator("section[id]").First).ToContainTextAsync("customer’s credit");
        await Assertions.Expect(hands.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("with the customer’s credit$") })).ToHaveCountAsync(0);
    }

    private static async Task StatementAsync(Hands hands)
    {
        var owed = await hands.Page.Locator("dl.facts dd strong").InnerTextAsync();
        await hands.PressAsync(hands.Page.Locator("p.sub a"));
        await hands.FollowAsync("Statement");
        await Assertions.Expect(hands.Page.Locator("tr.total").First).ToContainTextAsync(owed);
        await hands.ExpectNothingForAxeAsync();
        await hands.PressAsync("Make the paper");
        await Assertions.Expect(hands.Page.Locator("main")).ToContainTextAsync("(PDF)");
        await hands.PressAsync(hands.Page.GetByRole(AriaRole.Link, new() { NameRegex = new("as a page$") }));
        await Assertions.Expect(hands.Page.Locator("tr.total").First).ToContainTextAsync(owed);
        await hands.ExpectNothingForAxeAsync();
    }
}
