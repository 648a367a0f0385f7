using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using RepairShop.Services;
using RepairShop.Services.Database;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;
using RepairShop.Testing;

namespace RepairShop.Benchmarks;

/// <summary>The bench list, the list of repairs and search with 2,000 against 200,000 repairs in the book.
/// Aim: at most 1.5 times. One process, both books on the same server, asked in turns; "ours" is the larger book.</summary>
internal static class Lists
{
    private const int Runs = 11;
    private const int RoundCount = 9;

    private static readonly (string Name, Func<IServiceProvider, string, Task<int>> Ask)[] Questions =
    [
        ("bench list", async (services, _) =>
        {
            var bench = await services.GetRequiredService<BenchService>().GetAsync(default);
            return bench.OnBench.Count + bench.NotStarted.Count + bench.GoingHome.Count + bench.Waiting.Count;
        }),
        ("repairs, first page", (services, _) => CountAsync(services, new RepairFilter())),
        ("repairs, in the house", (services, _) => CountAsync(services, new RepairFilter(Open: true))),
        ("repairs, a page in the middle", (services, middle) => CountAsync(services, new RepairFilter(After: middle))),
        ("search, exact number", async (services, _) => await services.GetRequiredService<RepairListService>().NumberAsync("B-000777", default) is null ? 0 : 1),
        ("search, a serial", (services, _) => CountAsync(services, new RepairFilter("148271"))),
        ("search, a surname", (services, _) => CountAsync(services, new RepairFilter("Marelo"))),
        ("search, a maker of one in forty", (services, _) => CountAsync(services, new RepairFilter("mamare"))),
        ("search, name and model", (services, _) => CountAsync(services, new RepairFilter("mare marelo"))),
        ("search, a telephone number", (services, _) => CountAsync(services, new RepairFilter("020 7946 0123"))),
        ("search, a slip in a name both know", (services, _) => CountAsync(services, new RepairFilter("prowilrgi"))),
        ("search, a slip, only the larger knows it", (services, _) => CountAsync(services, new RepairFilter("dorsalqiu"))),
        ("search, nothing there", (services, _) => CountAsync(services, new RepairFilter("xyxyxyxy"))),
    ];

    public static async Task<IReadOnlyList<Comparison>> RunAsync(PostgresServer server, CancellationToken cancel)
    {
        await using var smallBook = await server.CreateDatabaseAsync(cancel);
        await using var largeBook = await server.CreateDatabaseAsync(cancel);
        var small = await BookAsync(smallBook.ConnectionString, 2_000, cancel);
        var large = await BookAsync(largeBook.ConnectionString, 200_000, cancel);
        await using var smallServices = small.Services;
        await using var largeServices = large.Services;
        var results = new List<Comparison>();
        foreach (var (name, ask) in Questions)
        {
            var found = (Few: 0, Many: 0);
            async Task<double> FewAsync() => await MedianAsync(small.Services, ask, small.Middle, count => found.Few = count);
            async Task<double> ManyAsync() => await MedianAsync(large.Services, ask, large.Middle, count => found.Many = count);
            await FewAsync();
            await ManyAsync();
            var rounds = await Rounds.RunAsync(RoundCount, ManyAsync, FewAsync);
            results.Add(Comparison.Of(name, "ms", rounds, (many, few) => many / few, "at most 1.5", ratio => ratio <= 1.5));
            Console.WriteLine($"{name}: {found.Few} found among 2,000, {found.Many} among 200,000");
        }

        return results;
    }

    private static async Task<(ServiceProvider Services, string Middle)> BookAsync(
        string connectionString, int repairs, CancellationToken cancel)
    {
        var collection = new ServiceCollection();
        collection.AddLogging();
        collection.AddShopServices(connectionString, Path.GetTempPath());
        var services = collection.BuildServiceProvider();
        await using var scope = services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        await ShopDefaults.EnsureAsync(db, cancel);
        var clock = Stopwatch.StartNew();
        await ListsData.FillAsync(connectionString, repairs, cancel);
        await services.GetRequiredService<ShopFace>().FreshenAsync(cancel);
        Console.WriteLine($"A book of {repairs:N0} repairs, made in {clock.Elapsed.TotalSeconds:0} s");
        var middle = await db.Repairs.OrderBy(row => row.BookedAt).Skip(repairs / 2).Select(row => new { row.BookedAt, row.Id }).FirstAsync(cancel);
        return (services, $"{middle.Id:N}{middle.BookedAt.UtcTicks}");
    }

    private static async Task<double> MedianAsync(
        ServiceProvider services, Func<IServiceProvider, string, Task<int>> ask, string middle, Action<int> found)
    {
        var times = new List<double>(Runs);
        for (var run = 0; run < Runs; run++)
        {
            await using var scope = services.CreateAsyncScope();
            var clock = Stopwatch.StartNew();
            found(await ask(scope.ServiceProvider, middle));
            times.Add(clock.Elapsed.TotalMilliseconds);
        }

        return Rounds.Median(times);
    }

    private static async Task<int> CountAsync(IServiceProvider services, RepairFilter filter) =>
        (await services.GetRequiredService<RepairListService>().ListAsync(filter, default)).Lines.Count;
}
