using System.Net;
using Microsoft.AspNetCore.Mvc.Testing;
using RepairShop.Services.Demo;
using RepairShop.Testing;
using RepairShop.Web.Pages.Repairs;

namespace RepairShop.Benchmarks;

/// <summary>The whole program on Kestrel in this process, with the demo workshop in its book.</summary>
internal sealed class ShopHere : WebApplicationFactory<SheetModel>
{
    private readonly string connectionString;

    private ShopHere(string connectionString) => this.connectionString = connectionString;

    public string DataDirectory { get; } = TestFolders.Create("bench");

    public Uri Address { get; private set; } = new("http://127.0.0.1");

    public static async Task<ShopHere> StartAsync(string connectionString, CancellationToken cancel)
    {
        var shop = new ShopHere(connectionString);
        shop.UseKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0));
        shop.StartServer();
        shop.Address = shop.ClientOptions.BaseAddress;
        await DemoWorkshop.FillAsync(shop.Services, connectionString, shop.DataDirectory, Console.Error.WriteLine, cancel);
        return shop;
    }

    /// <summary>The owner's cookies after signing in as a browser would.</summary>
    public async Task<string> SignInAsync()
    {
        var jar = new CookieContainer();
        using var handler = new SocketsHttpHandler { CookieContainer = jar };
        using var browser = new FormClient(new HttpClient(handler, disposeHandler: false) { BaseAddress = Address });
        await browser.Open("/account/sign-in?to=/account");
        await browser.Press("Sign in", ("Input.Email", "maren@ternstreet.example"), ("Input.Password", DemoWorkshop.Password));
        return browser.Url == "/account"
            ? jar.GetCookieHeader(Address)
            : throw new InvalidOperationException($"Signing in led to {browser.Url}: {browser.Text}");
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        Directory.Delete(DataDirectory, recursive: true);
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseEnvironment("Production");
        builder.UseContentRoot(Path.Combine(Checkout.Root, "src", "RepairShop.Web"));
        builder.UseSetting("data", DataDirectory);
        builder.UseSetting("ConnectionStrings:Shop", connectionString);
        builder.UseSetting("WarmUp", "false");
    }
}
