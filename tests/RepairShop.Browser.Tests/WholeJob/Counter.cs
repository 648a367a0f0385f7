using Microsoft.Playwright;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Browser.Tests.WholeJob;

/// <summary>What happens at the counter: booking in, the claim tag, giving back.</summary>
internal static class Counter
{
    /// <returns>The repair's number.</returns>
    public static async Task<string> BookInAsync(Hands hands, string address)
    {
        await hands.GoAsync($"{address}/repairs/new");
        await hands.TypeAsync("Name", Figures.Customer);
        await hands.TypeAsync("Phone", "020 7946 0123");
        await hands.TypeAsync("E-mail", Figures.CustomerEmail);
        await hands.TypeAsync("Maker", "Tarnwick");
        await hands.TypeAsync("Model", "Meridian");
        await hands.TypeAsync("Body serial", "TM-40417");
        await hands.ChooseAsync("Kind of shutter", "Between lens");
        await hands.ChooseAsync("Speeds on the dial", "Old, 1/25 1/50 1/100, to 1/500");
        await hands.TypeAsync("Complaint", "The slow speeds drag and one second sometimes sticks.");
        await hands.TickAsync("strap");
        await hands.TypeAsync("Condition on receipt", "Small dent at the top plate, left.");
        await hands.TickAsync("Estimate first");
        await hands.TypeAsync("Who agreed to the conditions", Figures.Customer);
        await hands.ChooseAsync("How they agreed", "In person");
        await hands.TypeAsync("Shelf", "B3");
        await hands.Page.GetByLabel("Choose photos").SetInputFilesAsync(Seed.Photo("camera-worn.jpg"));
        await hands.PressAsync("Book in");
        var number = await hands.Page.GetByRole(AriaRole.Heading, new() { Level = 1 }).InnerTextAsync();
        await hands.FollowAsync("Claim tag");
        await hands.PressAsync("Claim tag label");
        await Assertions.Expect(hands.Page.Locator("main table")).ToContainTextAsync(number);
        await hands.BackAsync();
        await Assertions.Expect(hands.Page.Locator("#complaint img")).ToHaveCountAsync(1);
        return number;
    }

    public static async Task GiveBackAsync(Hands hands, string number)
    {
        await hands.FollowAsync("Give it back");
        await hands.TickAsync("Collected");
        await hands.TickAsync("The claim tag was shown");
        await hands.PressAsync("Give it back");
        await Assertions.Expect(hands.Page.Locator(".trail .now")).ToContainTextAsync($"collected by {Figures.Customer}");
        Assert.EndsWith($"/repairs/{number}", hands.Page.Url, StringComparison.Ordinal);
    }
}
