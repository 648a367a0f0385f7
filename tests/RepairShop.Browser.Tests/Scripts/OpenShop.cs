using RepairShop.Browser.Tests.WholeJob;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Browser.Tests.Scripts;

/// <summary>A shop with its settings made and one camera booked in.</summary>
public sealed class OpenShop(PostgresServer server, Chromium chromium) : IAsyncLifetime
{
    private ShopProcess? shop;

    public ShopProcess Shop => shop ?? throw new InvalidOperationException("The shop has not been started.");

    public string Repair { get; private set; } = "";

    /// <summary>The owner's cookies, for a browser of one's own.</summary>
    public string SignedIn { get; private set; } = "";

    public async ValueTask InitializeAsync()
    {
        shop = await ShopProcess.StartAsync(server, demo: false, TestContext.Current.CancellationToken);
        await using var context = await chromium.Browser.NewContextAsync(new() { ViewportSize = new() { Width = 1440, Height = 900 } });
        var hands = new MouseHands(await context.NewPageAsync());
        await FirstStart.RunAsync(hands, shop);
        Repair = await Counter.BookInAsync(hands, shop.Address);
        SignedIn = await context.StorageStateAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (shop is not null)
            await shop.DisposeAsync();
    }
}
