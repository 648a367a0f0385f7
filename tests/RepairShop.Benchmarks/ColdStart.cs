using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using RepairShop.Services;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Testing;

namespace RepairShop.Benchmarks;

/// <summary>From the start of the process to the first page, against an empty web program. The database is there and migrated, so
/// that the program is timed and not the making of a database; how long a start with the program's own cluster takes is told
/// beside it. Aim: at most 3 times.</summary>
internal static class ColdStart
{
    private const int RoundCount = 5;

    public static async Task<IReadOnlyList<Comparison>> RunAsync(PostgresServer server, CancellationToken cancel)
    {
        await using var database = await server.CreateDatabaseAsync(cancel);
        var data = TestFolders.Create("cold");
        var own = TestFolders.Create("own");
        try
        {
            var shop = Checkout.Program("RepairShop.Web");
            Console.WriteLine($"Timed: {Path.GetRelativePath(Checkout.Root, shop)}");
            await OwnerAsync(database.ConnectionString, data, cancel);
            Task<double> ShopAsync(string page) => FirstAsync(
                [shop, "--data", data, "--port"], page, [("ConnectionStrings__Shop", database.ConnectionString)], cancel);
            Task<double> OwnAsync() => FirstAsync([shop, "--data", own, "--port"], "/health/live", [], cancel);
            Task<double> EmptyAsync() => FirstAsync([typeof(ColdStart).Assembly.Location, "--empty-app"], "/", [], cancel);
            await ShopAsync("/account/sign-in");
            await EmptyAsync();
            var alive = await Rounds.RunAsync(RoundCount, () => ShopAsync("/health/live"), EmptyAsync);
            var page = await Rounds.RunAsync(RoundCount, () => ShopAsync("/account/sign-in"), EmptyAsync);
            await OwnAsync(); // Makes the cluster.
            var warm = await Rounds.RunAsync(3, OwnAsync, EmptyAsync);
            return
            [
                Comparison.Of("cold start to “alive”, empty web app", "ms", alive, (ours, other) => ours / other, "at most 3", ratio => ratio <= 3),
                Comparison.Of("cold start to the sign-in page, empty web app", "ms", page, (ours, other) => ours / other, "at most 3", ratio => ratio <= 3),
                Comparison.Of("the same to “alive” with its own cluster", "ms", warm, (ours, other) => ours / other, "none", null),
            ];
        }
        finally
        {
            Directory.Delete(data, recursive: true);
            Directory.Delete(own, recursive: true);
        }
    }

    /// <summary>Without an owner every page leads to the first start.</summary>
    private static async Task OwnerAsync(string connectionString, string data, CancellationToken cancel)
    {
        await using var services = new ServiceCollection().AddLogging().AddShopServices(connectionString, data).BuildServiceProvider();
        await ShopPreparation.PrepareAsync(services, cancel);
        await using var scope = services.CreateAsyncScope();
        var made = await scope.ServiceProvider.GetRequiredService<AccountService>().CreateFirstOwner(
            services.GetRequiredService<FirstStart>().Code, new NewPerson("Mara Quill", "mara@example.com", Roles.Owner), "four easy words here", cancel);
        if (!made.IsDone)
            throw new InvalidOperationException(made.Failure.Message);
    }

    private static async Task<double> FirstAsync(
        IReadOnlyList<string> arguments, string page, IReadOnlyList<(string Name, string Value)> environment, CancellationToken cancel)
    {
        var port = FreePort();
        var start = new ProcessStartInfo("dotnet")
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Path.GetDirectoryName(arguments[0]),
        };
        foreach (var argument in arguments)
            start.ArgumentList.Add(argument);
        start.ArgumentList.Add(arguments[^1] == "--port" ? $"{port}" : $"http://localhost:{port}");
        foreach (var (name, value) in environment)
            start.Environment[name] = value;
        start.Environment["ASPNETCORE_ENVIRONMENT"] = "Production";
        using var http = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = new Uri($"http://localhost:{port}") };
        var clock = Stopwatch.StartNew();
        using var process = Process.Start(start)!;
        process.OutputDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        var said = process.StandardError.ReadToEndAsync(cancel);
        try
        {
            while (!await AnswersAsync(http, page, cancel))
            {
                if (process.HasExited)
                    throw new InvalidOperationException($"{string.Join(' ', arguments)} ended: {await said}");
                if (clock.Elapsed > TimeSpan.FromMinutes(2))
                    throw new TimeoutException($"{page} did not answer in two minutes.");
                await Task.Delay(5, cancel);
            }

            return clock.Elapsed.TotalMilliseconds;
        }
        finally
        {
            await StopAsync(process);
        }
    }

    private static async Task<bool> AnswersAsync(HttpClient http, string page, CancellationToken cancel)
    {
        try
        {
            using var answer = await http.GetAsync(page, cancel);
            return answer.StatusCode == HttpStatusCode.OK;
        }
        catch (HttpRequestException)
        {
            return false; // Not listening yet.
        }
    }

    private static async Task StopAsync(Process process)
    {
        if (process.HasExited)
            return;
        // Asked politely, so that the program stops its own database.
        using (var kill = Process.Start("kill", ["-TERM", $"{process.Id}"]))
            await kill.WaitForExitAsync();
        await process.WaitForExitAsync();
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
