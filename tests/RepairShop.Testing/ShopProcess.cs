using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text.RegularExpressions;

namespace RepairShop.Testing;

/// <summary>The real program in a process of its own, as ./deploy/start runs it, on a fresh database and data folder.</summary>
public sealed partial class ShopProcess : IAsyncDisposable
{
    private readonly Process process;
    private readonly TestDatabase? database;
    private readonly ConcurrentQueue<string> console = new();

    private ShopProcess(Process process, TestDatabase? database, string dataDirectory, string address) =>
        (this.process, this.database, DataDirectory, Address) = (process, database, dataDirectory, address);

    public string DataDirectory { get; }

    public string Address { get; }

    [GeneratedRegex(@"\b[a-z0-9]{4}(-[a-z0-9]{4}){3}\b")]
    private static partial Regex OneTimeCodeText();

    /// <summary>On a database and data folder of its own, both gone when it is disposed.</summary>
    public static async Task<ShopProcess> StartAsync(PostgresServer server, bool demo, CancellationToken cancel)
    {
        var database = await server.CreateDatabaseAsync(cancel);
        return await StartAsync(database, TestFolders.Create("process"), demo, cancel);
    }

    /// <summary>With the private database of the data folder, which stays when the process ends.</summary>
    public static Task<ShopProcess> StartAloneAsync(string dataDirectory, CancellationToken cancel) => StartAsync(null, dataDirectory, false, cancel);

    private static async Task<ShopProcess> StartAsync(TestDatabase? database, string data, bool demo, CancellationToken cancel)
    {
        var port = FreePort();
        var start = new ProcessStartInfo("dotnet")
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            ArgumentList = { WebProgram(), "--data", data, "--port", $"{port}" },
            Environment = { ["ASPNETCORE_ENVIRONMENT"] = "Production" },
        };
        if (database is not null)
            start.Environment["ConnectionStrings__Shop"] = database.ConnectionString;
        if (demo)
            start.ArgumentList.Add("--demo");
        var shop = new ShopProcess(Process.Start(start)!, database, data, $"http://localhost:{port}");
        shop.Listen();
        await shop.WaitUntilReadyAsync(cancel);
        return shop;
    }

    /// <summary>As kill -9 does it: no farewell, no flush. The data folder stays.</summary>
    public async Task KillAsync()
    {
        process.Kill();
        await process.WaitForExitAsync();
    }

    /// <summary>The code an empty shop prints for its first owner.</summary>
    public string OneTimeCode => console.Select(line => OneTimeCodeText().Match(line)).First(match => match.Success).Value;

    public string Console => string.Join('\n', console);

    public async ValueTask DisposeAsync()
    {
        if (!process.HasExited)
        {
            process.Kill(entireProcessTree: true);
            await process.WaitForExitAsync();
        }
        process.Dispose();
        if (database is null)
            return;
        await database.DisposeAsync();
        Directory.Delete(DataDirectory, recursive: true);
    }

    private void Listen()
    {
        process.OutputDataReceived += (_, line) => console.Enqueue(line.Data ?? "");
        process.ErrorDataReceived += (_, line) => console.Enqueue(line.Data ?? "");
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    private async Task WaitUntilReadyAsync(CancellationToken cancel)
    {
        using var http = new HttpClient();
        for (var tries = 0; tries < 1800; tries++)
        {
            if (process.HasExited)
                throw new InvalidOperationException($"The program ended before it was ready:\n{Console}");
            try
            {
                if ((await http.GetAsync($"{Address}/health/ready", cancel)).IsSuccessStatusCode)
                    return;
            }
            catch (HttpRequestException)
            {
                // Not listening yet.
            }
            await Task.Delay(200, cancel);
        }
        throw new TimeoutException($"The program was not ready in six minutes:\n{Console}");
    }

    /// <summary>The web program as built beside the tests, in the same configuration.</summary>
    private static string WebProgram()
    {
        var own = new DirectoryInfo(AppContext.BaseDirectory);
        var configuration = own.Parent!.Name;
        var root = own;
        while (root is not null && !File.Exists(Path.Combine(root.FullName, "RepairShop.sln")))
            root = root.Parent;
        var program = Path.Combine(root!.FullName, "src/RepairShop.Web/bin", configuration, "net10.0/RepairShop.Web.dll");
        return File.Exists(program) ? program : throw new InvalidOperationException($"Build the solution first: {program} is missing.");
    }

    /// <summary>
    /// A port nobody listens on, from below those that Linux hands to outgoing connections (32768 to 60999): between this look
    /// and the moment the program listens, a connection of another test would take one of those now and then.
    /// </summary>
    private static int FreePort()
    {
        while (true)
        {
            var port = Random.Shared.Next(20_000, 32_000);
            try
            {
                using var listener = new TcpListener(IPAddress.Loopback, port);
                listener.Start();
                return port;
            }
            catch (SocketException taken) when (taken.SocketErrorCode == SocketError.AddressAlreadyInUse)
            {
                // Somebody's; the next one then.
            }
        }
    }
}
