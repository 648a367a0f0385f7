using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using RepairShop.Services.Database;
using RepairShop.Testing;

namespace RepairShop.Benchmarks;

/// <summary>The repair's sheet, signed in, against a page that runs the same SQL by hand and writes plain HTML. The SQL is taken
/// from the sheet itself while it is made once, sign-in and layout included. Aim: at least half the throughput.</summary>
internal static class SheetThroughput
{
    private const int Clients = 4;
    private const int RoundCount = 9;
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan Stretch = TimeSpan.FromSeconds(3);

    public static async Task<IReadOnlyList<Comparison>> RunAsync(PostgresServer server, CancellationToken cancel)
    {
        await using var database = await server.CreateDatabaseAsync(cancel);
        // A line a request is written as always, but not shown between the figures.
        var shown = Console.Out;
        Console.SetOut(TextWriter.Null);
        try
        {
            await using var shop = await ShopHere.StartAsync(database.ConnectionString, cancel);
            var path = $"/repairs/{await FullestAsync(shop, cancel)}";
            using var signedIn = new HttpClient { BaseAddress = shop.Address };
            signedIn.DefaultRequestHeaders.Add("Cookie", await shop.SignInAsync());
            var statements = await ListenAsync(signedIn, path, cancel);
            await using var hand = await HandPage.StartAsync(database.ConnectionString, statements, cancel);
            using var open = new HttpClient { BaseAddress = new Uri(hand.Urls.First()) };
            await shown.WriteLineAsync($"{path}: {statements.Count} statements; {(await signedIn.GetByteArrayAsync(path, cancel)).Length:N0} bytes of ours, {(await open.GetByteArrayAsync("/sheet", cancel)).Length:N0} by hand");
            if (Environment.GetEnvironmentVariable("BENCHMARK_SHOW_SQL") == "1")
                foreach (var statement in statements)
                    await shown.WriteLineAsync($"-- \n{statement.Sql}");
            await LoadAsync(signedIn, path, WarmUp, cancel);
            await LoadAsync(open, "/sheet", WarmUp, cancel);
            var rounds = await Rounds.RunAsync(RoundCount, () => LoadAsync(signedIn, path, Stretch, cancel), () => LoadAsync(open, "/sheet", Stretch, cancel));
            return [Comparison.Of("repair sheet, same SQL by hand", "/s", rounds, (ours, other) => ours / other, "at least 0.5", ratio => ratio >= 0.5)];
        }
        finally
        {
            Console.SetOut(shown);
        }
    }

    /// <summary>The repair with the most entries of every kind.</summary>
    private static async Task<string> FullestAsync(ShopHere shop, CancellationToken cancel)
    {
        await using var scope = shop.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        return await db.Repairs.Where(repair => repair.ReturnedAt != null).OrderByDescending(repair =>
                db.Findings.Count(row => row.RepairId == repair.Id) + db.LabourEntries.Count(row => row.RepairId == repair.Id)
                + db.PartUses.Count(row => row.RepairId == repair.Id) + db.CheckResults.Count(row => row.RepairId == repair.Id)
                + db.ShutterTests.Where(row => row.RepairId == repair.Id).SelectMany(row => row.Readings).Count())
            .ThenBy(repair => repair.Number).Select(repair => repair.Number).FirstAsync(cancel);
    }

    private static async Task<IReadOnlyList<Statement>> ListenAsync(HttpClient signedIn, string path, CancellationToken cancel)
    {
        using var sql = new SheetSql();
        await GetAsync(signedIn, path, cancel);
        sql.Forget(); // What is asked once a minute is left out.
        await GetAsync(signedIn, path, cancel);
        return sql.Heard;
    }

    /// <returns>Pages a second.</returns>
    private static async Task<double> LoadAsync(HttpClient http, string path, TimeSpan length, CancellationToken cancel)
    {
        var clock = Stopwatch.StartNew();
        var made = await Task.WhenAll(Enumerable.Range(0, Clients).Select(_ => Task.Run(async () =>
        {
            var pages = 0;
            for (; clock.Elapsed < length; pages++)
                await GetAsync(http, path, cancel);
            return pages;
        }, cancel)));
        return made.Sum() / clock.Elapsed.TotalSeconds;
    }

    private static async Task GetAsync(HttpClient http, string path, CancellationToken cancel)
    {
        using var answer = await http.GetAsync(path, cancel);
        if (answer.RequestMessage!.RequestUri!.AbsolutePath != path)
            throw new InvalidOperationException($"{path} led to {answer.RequestMessage.RequestUri}.");
        answer.EnsureSuccessStatusCode();
        await answer.Content.ReadAsByteArrayAsync(cancel);
    }
}
