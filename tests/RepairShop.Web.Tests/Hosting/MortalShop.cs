using System.Diagnostics;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Web.Tests.Hosting;

/// <summary>A data folder whose program may be killed and started again; with an owner who can sign in.</summary>
internal sealed class MortalShop : IAsyncDisposable
{
    public string Data { get; } = TestFolders.Create("killed");

    public Task<ShopProcess> StartAsync(CancellationToken cancel) => ShopProcess.StartAloneAsync(Data, cancel);

    public static async Task SetUpAsync(ShopProcess shop)
    {
        using var client = Client(shop);
        await client.Open("/first-start");
        await client.Press("Create the owner’s account",
            ("Input.Code", shop.OneTimeCode), ("Input.Name", "Mara Quill"), ("Input.Email", ShopApp.Email(Roles.Owner)),
            ("Input.Password", ShopApp.Password), ("Input.Again", ShopApp.Password));
        Assert.Equal("/shop", client.Url);
    }

    public static async Task<FormClient> SignInAsync(ShopProcess shop)
    {
        var client = Client(shop);
        await client.Open("/account/sign-in?to=/account");
        await client.Press("Sign in", ("Input.Email", ShopApp.Email(Roles.Owner)), ("Input.Password", ShopApp.Password));
        Assert.Equal("/account", client.Url);
        return client;
    }

    /// <summary>The book itself, while the program runs; no connection outlives a kill.</summary>
    public async Task<ShopDb> OpenAsync(CancellationToken cancel)
    {
        var running = await PrivateCluster.FindRunningAsync(Data, cancel);
        return new ShopDb(ShopDbOptions.For(running + ";Pooling=false"), new CurrentPerson(), TimeProvider.System);
    }

    public string FileOf(string hash) => Path.Combine(Data, "files", hash[..2], hash[2..4], hash);

    /// <summary>As kill -9 ends the database server, with no word to anybody.</summary>
    public void KillDatabase()
    {
        var pid = int.Parse(File.ReadLines(Path.Combine(Data, "pg", "postmaster.pid")).First(), System.Globalization.CultureInfo.InvariantCulture);
        using var server = Process.GetProcessById(pid);
        server.Kill();
        server.WaitForExit();
    }

    /// <summary>A killed program leaves its database running, which goes on writing: it is taken over and stopped before its folder goes.</summary>
    public async ValueTask DisposeAsync()
    {
        var left = await PrivateCluster.StartAsync(new PrivateClusterOptions { DataDirectory = Data, Durable = false });
        await left.DisposeAsync();
        Directory.Delete(Data, recursive: true);
    }

    private static FormClient Client(ShopProcess shop) => new(new HttpClient { BaseAddress = new Uri(shop.Address) });
}
