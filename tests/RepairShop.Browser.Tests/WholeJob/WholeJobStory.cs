using Microsoft.Playwright;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Browser.Tests.WholeJob;

/// <summary>One camera from the first start of an empty program to paid and collected, told twice.</summary>
public sealed class WholeJobStory(PostgresServer server, Chromium chromium)
{
    [Fact]
    public Task With_the_mouse_on_a_phone() => TellAsync(
        new() { ViewportSize = new() { Width = 390, Height = 844 }, HasTouch = true, IsMobile = true }, page => new MouseHands(page));

    [Fact]
    public Task By_keyboard_alone_at_a_desk() => TellAsync(Desk(), page => new KeyboardHands(page));

    [Fact]
    public Task Without_any_script() => TellAsync(new(Desk()) { JavaScriptEnabled = false }, page => new MouseHands(page));

    private static BrowserNewContextOptions Desk() => new() { ViewportSize = new() { Width = 1440, Height = 900 } };

    private async Task TellAsync(BrowserNewContextOptions how, Func<IPage, Hands> handsOf)
    {
        await using var shop = await ShopProcess.StartAsync(server, demo: false, TestContext.Current.CancellationToken);
        await using var context = await chromium.Browser.NewContextAsync(how);
        var hands = handsOf(await context.NewPageAsync());
        try
        {
            await TellAsync(hands, shop);
        }
        catch (Exception stuck) when (stuck is PlaywrightException or TimeoutException)
        {
            throw new InvalidOperationException($"Stuck at {hands.Page.Url}:\n{await hands.Page.InnerTextAsync("main")}", stuck);
        }
    }

    private static async Task TellAsync(Hands hands, ShopProcess shop)
    {
        await FirstStart.RunAsync(hands, shop);
        var number = await Counter.BookInAsync(hands, shop.Address);

        await Bench.CheckAsync(hands, "Check as received", "faulty");
        await Bench.MeasureAsync(hands, Figures.AsReceived);
        await hands.BackAsync();

        await hands.FollowAsync("Write estimate");
        await Money.EstimateAsync(hands);
        await Papers.ReadEstimateAsync(shop);
        await Money.ApproveAsync(hands);
        await hands.BackAsync();

        await hands.PressAsync("Take to the bench");
        await hands.FollowAsync("Add finding");
        await Bench.FindAsync(hands);
        await Bench.WriteHoursAsync(hands);
        await Bench.FitPartAsync(hands);
        await hands.BackAsync();
        await Bench.CheckAsync(hands, "Check after service", "fine");
        await hands.PressAsync(hands.Page.GetByRole(AriaRole.Navigation, new() { Name = "Work on this repair" }).GetByRole(AriaRole.Link, new() { Name = "Shutter" }));
        await hands.FollowAsync("after service");
        await Bench.TypeReadingsAsync(hands, Figures.AfterService);
        await hands.BackAsync();

        await hands.FollowAsync("Issue service record");
        await hands.PressAsync("Service record, and e-mail it");
        await Papers.ReadServiceRecordAsync(shop);
        await hands.BackAsync();
        await hands.FollowAsync("Call it ready");
        await hands.PressAsync("Call it ready");

        await hands.FollowAsync("Write invoice");
        var invoice = await Money.InvoiceAsync(hands);
        await Papers.ReadInvoiceAsync(shop, invoice);
        await Money.PayAsync(hands);
        await hands.BackAsync();
        await Counter.GiveBackAsync(hands, number);
    }
}
