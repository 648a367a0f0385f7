using Microsoft.Playwright;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Browser.Tests.WholeJob;

/// <summary>From an empty program to a shop that can book a camera in.</summary>
internal static class FirstStart
{
    public static async Task RunAsync(Hands hands, ShopProcess shop)
    {
        await hands.GoAsync(shop.Address);
        Assert.EndsWith("/first-start", hands.Page.Url, StringComparison.Ordinal);
        await hands.TypeAsync("One-time code", shop.OneTimeCode);
        await hands.TypeAsync("Your name", Figures.Owner);
        await hands.TypeAsync("E-mail", Figures.OwnerEmail);
        await hands.TypeAsync("Password", Figures.OwnerPassword);
        await hands.TypeAsync("Password again", Figures.OwnerPassword);
        await hands.PressAsync("Create the owner’s account");
        await TellAboutTheShopAsync(hands);
        await SetPricesAsync(hands);
        await SetLimitsAsync(hands);
    }

    private static async Task TellAboutTheShopAsync(Hands hands)
    {
        Assert.EndsWith("/shop", hands.Page.Url, StringComparison.Ordinal);
        await hands.TypeAsync("Name of the shop", Figures.ShopName);
        await hands.TypeAsync("Street", "3 Harbour Steps");
        await hands.TypeAsync("Postal code", "1000");
        await hands.TypeAsync("City", "Quayford");
        await hands.ChooseAsync("Country", "Belgium");
        await hands.TypeAsync("E-mail", Figures.ShopEmail);
        await hands.ChooseAsync("Currency", "EUR – Euro");
        await hands.ChooseAsync("Written as in", "English (Ireland)");
        await hands.ChooseAsync("Time zone", "Europe/Brussels");
        await hands.TypeAsync("Account holder", Figures.ShopName);
        // The example for Belgium in the IBAN registry published by SWIFT for ISO 13616.
        await hands.TypeAsync("IBAN", "BE68539007547034");
        await hands.PressAsync("Save the shop");
        await Assertions.Expect(hands.Field("IBAN")).ToHaveValueAsync("BE68 5390 0754 7034");
    }

    private static async Task SetPricesAsync(Hands hands)
    {
        await hands.FollowAsync("Prices and tax");
        await hands.TypeAsync("Labour rate", Figures.Plain(Figures.LabourRate));
        await hands.TickAsync("Up to fifteen minutes");
        await hands.TickAsync("The shop is registered for tax");
        await hands.TypeAsync("Tax number", "BE0123456749");
        await hands.PressAsync("Save prices and tax");
        await hands.TypeAsync("Name", "VAT");
        await hands.TypeAsync("Percent", $"{Figures.TaxPercent}");
        await hands.PressAsync("Add rate");
        await Assertions.Expect(hands.Page.Locator("#rates tbody")).ToContainTextAsync("21 %");
    }

    private static async Task SetLimitsAsync(Hands hands)
    {
        await hands.FollowAsync("Checks and limits");
        await hands.TypeAsync("Slow speeds go up to", "1/125");
        await hands.TypeAsync("Limit there and slower", "0.3");
        await hands.TypeAsync("Limit faster than that", "0.4");
        await hands.TypeAsync("Where these limits come from", "This workshop’s own, from what its customers keep.");
        await hands.TypeAsync("Usual instrument", "Light gate no. 2");
        await hands.TypeAsync("Its smallest step", "0.01");
        await hands.PressAsync("Save limits");
    }
}
