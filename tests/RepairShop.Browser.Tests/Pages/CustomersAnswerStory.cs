using System.Text.RegularExpressions;
using Microsoft.Playwright;
using RepairShop.Browser.Tests.Scripts;
using RepairShop.Browser.Tests.WholeJob;
using Xunit;

namespace RepairShop.Browser.Tests.Pages;

/// <summary>A customer opens the link in the letter on a phone, reads the offer, and answers it.</summary>
public sealed partial class CustomersAnswerStory(OpenShop open, Chromium chromium) : IClassFixture<OpenShop>
{
    [GeneratedRegex(@"https://book\.example\.com(/answer/\S+)")]
    private static partial Regex LinkInLetter();

    [Fact]
    public async Task The_offer_fits_a_phone_Enter_approves_nothing_and_the_button_does()
    {
        var link = await SendAsync();
        await using var context = await chromium.Browser.NewContextAsync(new() { ViewportSize = new() { Width = 320, Height = 640 } });
        var hands = new MouseHands(await context.NewPageAsync());
        await hands.GoAsync(open.Shop.Address + link);
        await hands.ExpectNothingForAxeAsync();
        Assert.True(await hands.Page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= innerWidth"), "The offer is wider than a small phone.");

        await hands.TypeAsync("Your name", Figures.Customer);
        await hands.Field("Your name").PressAsync("Enter");
        // What Enter sent would be answered before this.
        await hands.Page.EvaluateAsync("() => fetch(location.href)");
        await Assertions.Expect(hands.Page.GetByRole(AriaRole.Heading, new() { Name = "Your answer" })).ToBeVisibleAsync();
        await Assertions.Expect(hands.Field("Your name")).ToHaveValueAsync(Figures.Customer);

        await hands.PressAsync(hands.Page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex("^Approve up to") }));
        await Assertions.Expect(hands.Page.Locator("main")).ToContainTextAsync("you approved the estimate");
        await hands.ExpectNothingForAxeAsync();
    }

    private async Task<string> SendAsync()
    {
        await using var context = await chromium.Browser.NewContextAsync(new() { ViewportSize = new() { Width = 1440, Height = 900 }, StorageState = open.SignedIn });
        var hands = new MouseHands(await context.NewPageAsync());
        await hands.GoAsync(open.Shop.Address + "/shop");
        await hands.TypeAsync("Web address of this book", "https://book.example.com");
        await hands.PressAsync("Save the shop");
        await hands.GoAsync($"{open.Shop.Address}/repairs/{open.Repair}/estimate");
        await Money.EstimateAsync(hands);
        var (letter, _) = await Papers.LetterAsync(open.Shop, "Estimate");
        return LinkInLetter().Match(letter.TextBody ?? "").Groups[1].Value;
    }
}
