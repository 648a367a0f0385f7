using Microsoft.Playwright;
using RepairShop.Testing;

namespace RepairShop.Browser.Tests.StripDown;

/// <summary>What a hand does on the strip-down page at the bench.</summary>
internal static class AtTheBench
{
    public static async Task OpenAsync(Hands hands, string address, string repair)
    {
        await hands.GoAsync($"{address}/repairs/{repair}/strip-down/bench");
        if (await hands.Page.GetByRole(AriaRole.Button, new() { Name = "Use this tray", Exact = true }).CountAsync() == 0)
            return;
        await hands.TypeAsync("Rows", "6");
        await hands.TypeAsync("Columns", "8");
        await hands.PressAsync("Use this tray");
    }

    /// <summary>Writes one step and presses the button; the page stays.</summary>
    public static async Task AddAsync(Hands hands, string what, string? photo = null, int count = 1)
    {
        await hands.TypeAsync("What came off", what);
        if (count != 1)
            await hands.TypeAsync("How many", $"{count}");
        if (photo is not null)
            await hands.Field("Photo").SetInputFilesAsync(Seed.Photo(photo));
        await hands.Page.GetByRole(AriaRole.Button, new() { Name = "Add step", Exact = true }).ClickAsync();
        await Assertions.Expect(hands.Field("What came off")).ToHaveValueAsync("");
    }

    /// <summary>Everything this device has written is in the book.</summary>
    public static async Task ExpectAllSentAsync(Hands hands)
    {
        // What was just written stands in the list of what waits a moment after the form is empty.
        await Assertions.Expect(hands.Page.Locator("form[aria-busy]")).ToHaveCountAsync(0);
        await Assertions.Expect(hands.Page.Locator("#queue li")).ToHaveCountAsync(0, new() { Timeout = 60_000 });
    }

    /// <summary>The record's steps as the book has them, in their order: what came off, with its count.</summary>
    public static async Task<IReadOnlyList<string>> RecordAsync(Hands hands, string address, string repair)
    {
        await hands.GoAsync($"{address}/repairs/{repair}/strip-down");
        return await hands.Page.Locator(".strip-list .what strong").AllInnerTextsAsync();
    }
}
