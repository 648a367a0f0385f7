using Microsoft.Playwright;
using RepairShop.Browser.Tests.WholeJob;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Browser.Tests.Invoices;

/// <summary>Deposit, discount, credit in part and reverse charge, told on a phone and by keyboard alone.</summary>
public sealed class TaxStory(PostgresServer server, Chromium chromium)
{
    [Fact]
    public Task With_the_mouse_on_a_phone() => TellAsync(
        new() { ViewportSize = new() { Width = 390, Height = 844 }, HasTouch = true, IsMobile = true }, page => new MouseHands(page));

    [Fact]
    public Task By_keyboard_alone_at_a_desk() => TellAsync(new() { ViewportSize = new() { Width = 1440, Height = 900 } }, page => new KeyboardHands(page));

    private async Task TellAsync(BrowserNewContextOptions how, Func<IPage, Hands> handsOf)
    {
        await using var shop = await ShopProcess.StartAsync(server, demo: false, TestContext.Current.CancellationToken);
        await using var context = await chromium.Browser.NewContextAsync(how);
        var hands = handsOf(await context.NewPageAsync());
        var number = await Money.BeginAsync(hands, shop);
        await DepositAsync(hands);
        await FinalAsync(hands);
        await CreditAsync(hands);
        await ReverseChargeAsync(hands, shop, number);
    }

    private static async Task DepositAsync(Hands hands)
    {
        await OpenAsync(hands, hands.Page.Locator("summary", new() { HasText = "Ask for a deposit" }));
        await hands.TypeAsync("Deposit", "50");
        await hands.PressAsync("Begin a deposit invoice");
        await hands.PressAsync("Issue invoice");
        await Assertions.Expect(hands.Page.Locator("section[id] h2").First).ToContainTextAsync("Deposit invoice I-");
        await Assertions.Expect(hands.Page.Locator("main")).ToContainTextAsync("€60.50"); // 50 and 21 %
    }

    private static async Task FinalAsync(Hands hands)
    {
        await hands.PressAsync(hands.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^As estimated") }));
        await hands.TypeAsync("Discount, line 1", "10 %");
        await hands.PressAsync("Keep draft");
        // 2 h at 78 less a tenth is 140.40; the spring 18.35; the deposit takes 50 off; 21 % of 108.75 is 22.84.
        await Assertions.Expect(hands.Page.Locator("table.totals").First).ToContainTextAsync("131.59");
        await hands.ExpectNothingForAxeAsync();
        await hands.PressAsync("Issue invoice");
        await Assertions.Expect(hands.Page.Locator("section[id]").First).ToContainTextAsync("€131.59");
    }

    private static async Task CreditAsync(Hands hands)
    {
        var section = hands.Page.Locator("section[id]").First;
        await OpenAsync(hands, section.Locator("summary", new() { HasText = "Credit this invoice" }));
        await hands.TypeAsync(section.GetByLabel("Give back of Slow-train spring"), "1");
        await hands.TypeAsync(section.GetByLabel("Reason, printed on the credit note"), "The spring was not fitted");
        await hands.ExpectNothingForAxeAsync();
        await hands.PressAsync(section.GetByRole(AriaRole.Button, new() { NameRegex = new("^Credit I-") }));
        // 18.35 and 21 % of it, 3.85, go back: 131.59 − 22.20.
        await Assertions.Expect(hands.Page.Locator("main")).ToContainTextAsync("Taken back in part by C-");
        await Assertions.Expect(hands.Page.Locator("main")).ToContainTextAsync("€109.39");
    }

    private static async Task ReverseChargeAsync(Hands hands, ShopProcess shop, string number)
    {
        await hands.GoAsync($"{shop.Address}/shop/profiles");
        await hands.TypeAsync("Name", "Business abroad");
        await hands.ChooseAsync("Tax", "none: reverse charge to a business abroad");
        await hands.ExpectNothingForAxeAsync();
        await hands.PressAsync("Add profile");
        await hands.GoAsync($"{shop.Address}/repairs/{number}/invoice");
        await hands.PressAsync("As worked");
        await hands.TypeAsync("What, line 1", "Return of the camera");
        await hands.TypeAsync("Quantity, line 1", "1");
        await hands.TypeAsync("Price, line 1", "12");
        await hands.ChooseAsync("Taxed as", "Business abroad");
        await hands.PressAsync("Keep draft");
        await Assertions.Expect(hands.Page.Locator("table.totals").First).ToContainTextAsync("Reverse charge 0 %");
        await Assertions.Expect(hands.Page.GetByRole(AriaRole.Note)).ToContainTextAsync("Reverse charge names the customer's VAT number");
        await Assert.ThrowsAsync<InvalidOperationException>(() => hands.PressAsync("Issue invoice"));
        await Assertions.Expect(hands.Page.Locator(".form-errors")).ToContainTextAsync("Reverse charge needs the customer's tax number");

        await hands.PressAsync(hands.Page.Locator("p.sub a"));
        await hands.BackAsync();
        await hands.FollowAsync("Change");
        await hands.TypeAsync("Tax number", "DE 123 456 789");
        await hands.TypeAsync("Country", "DE");
        await hands.PressAsync("Save changes");
        await hands.GoAsync($"{shop.Address}/repairs/{number}/invoice");
        await hands.PressAsync("Issue invoice");
        await Assertions.Expect(hands.Page.Locator(".notice")).ToContainTextAsync("is issued");
        await hands.PressAsync(hands.Page.GetByRole(AriaRole.Link, new() { Name = "Read it as a page" }).First);
        await Assertions.Expect(hands.Page.Locator("main")).ToContainTextAsync("The customer accounts for the tax");
        await Assertions.Expect(hands.Page.Locator("tr.total").First).ToContainTextAsync("€12.00");
        await hands.ExpectNothingForAxeAsync();
    }

    private static async Task OpenAsync(Hands hands, ILocator summary)
    {
        if (hands is KeyboardHands)
            await summary.PressAsync("Enter");
        else
            await summary.ClickAsync();
    }
}
