using System.Text.RegularExpressions;
using Microsoft.Playwright;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Browser.Tests.Pages;

/// <summary>The demo workshop, filled once for all looks at its pages.</summary>
public sealed partial class DemoShop(PostgresServer server, Chromium chromium) : IAsyncLifetime
{
    private static readonly string[] Stages = ["BookedIn", "EstimateSent", "Approved", "Declined", "OnTheBench", "Tested", "Ready", "Returned"];

    private ShopProcess? shop;

    public ShopProcess Shop => shop ?? throw new InvalidOperationException("The demo workshop has not been started.");

    public async ValueTask InitializeAsync() => shop = await ShopProcess.StartAsync(server, demo: true, TestContext.Current.CancellationToken);

    public async ValueTask DisposeAsync()
    {
        if (shop is not null)
            await shop.DisposeAsync();
    }

    /// <summary>A browser of its own in which the owner is signed in, with the address and password the demo prints.</summary>
    public async Task<IBrowserContext> SignInAsync(BrowserNewContextOptions how)
    {
        var context = await chromium.Browser.NewContextAsync(how);
        var page = await context.NewPageAsync();
        var hands = new MouseHands(page);
        await hands.GoAsync(Shop.Address + "/account/sign-in");
        var printed = OwnerLine().Match(Shop.Console);
        await hands.TypeAsync("E-mail", printed.Groups["email"].Value);
        await hands.TypeAsync("Password", printed.Groups["password"].Value.Trim());
        await hands.PressAsync("Sign in");
        await page.CloseAsync();
        return context;
    }

    public Task<IBrowserContext> StrangerAsync() => chromium.Browser.NewContextAsync();

    /// <summary>The sheets of one repair in every stage there is.</summary>
    public async Task<IReadOnlyList<string>> OneRepairAStageAsync(IPage page)
    {
        var sheets = new List<string>();
        foreach (var stage in Stages)
        {
            var answer = await page.Context.APIRequest.GetAsync($"{Shop.Address}/repairs?show={stage}");
            var sheet = FirstSheet().Match(await answer.TextAsync());
            Assert.True(sheet.Success, $"The demo has no repair in the stage {stage}.");
            sheets.Add(sheet.Groups[1].Value);
        }
        return sheets;
    }

    [GeneratedRegex(@"^\s*owner\s+(?<email>\S+)\s+(?<password>.+)$", RegexOptions.Multiline)]
    private static partial Regex OwnerLine();

    [GeneratedRegex("<td><a href=\"(/repairs/[^\"]+)\"")]
    private static partial Regex FirstSheet();
}
