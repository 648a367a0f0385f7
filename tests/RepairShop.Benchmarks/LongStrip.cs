using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Database;
using RepairShop.Testing;

namespace RepairShop.Benchmarks;

/// <summary>A strip-down of 400 steps against one of 25 in the same workshop, over HTTP, signed in: what the hand waits for at the
/// bench, and the pages that show every step. "Ours" is the long one. Aims: adding a step at most 4 times as long; a page that shows
/// sixteen times as much at most sixteen times as long.</summary>
internal static class LongStrip
{
    private const int Few = 25;
    private const int Many = 400;
    private const int Runs = 7;
    private const int RoundCount = 9;
    private const string Added = "One screw more";

    public static async Task<IReadOnlyList<Comparison>> RunAsync(PostgresServer server, CancellationToken cancel)
    {
        await using var database = await server.CreateDatabaseAsync(cancel);
        var shown = Console.Out;
        Console.SetOut(TextWriter.Null);
        try
        {
            await using var shop = await ShopHere.StartAsync(database.ConnectionString, cancel);
            var repairs = await RepairsAsync(shop, cancel);
            using var browser = await SignedInAsync(shop);
            var results = new List<Comparison> { await CompareAsync("a step added at the bench", 4, repairs, repair => AddAsync(browser, repair), () => TakeOutAsync(shop, cancel)) };
            foreach (var page in new[] { "/bench", "", "/trays", "/wash", "/reassembly" })
                results.Add(await CompareAsync(
                    $"strip-down{page}", (double)Many / Few, repairs, repair => browser.Open($"/repairs/{repair}/strip-down{page}"), () => Task.CompletedTask));
            return results;
        }
        finally
        {
            Console.SetOut(shown);
        }
    }

    private static async Task<Comparison> CompareAsync(string what, double most, (string Long, string Short) repairs, Func<string, Task> work, Func<Task> undo)
    {
        async Task<double> MedianAsync(string repair)
        {
            var times = new List<double>(Runs);
            for (var run = 0; run < Runs; run++)
            {
                var clock = Stopwatch.StartNew();
                await work(repair);
                times.Add(clock.Elapsed.TotalMilliseconds);
                await undo();
            }

            return Rounds.Median(times);
        }

        await MedianAsync(repairs.Long);
        await MedianAsync(repairs.Short);
        var rounds = await Rounds.RunAsync(RoundCount, () => MedianAsync(repairs.Long), () => MedianAsync(repairs.Short));
        return Comparison.Of($"{what}, {Many} steps against {Few}", "ms", rounds, (many, few) => many / few, $"at most {most:0}", ratio => ratio <= most);
    }

    /// <summary>Sends the form as rendered and follows to the page that comes back, which is the form for the next step.</summary>
    private static async Task AddAsync(FormClient browser, string repair)
    {
        var bench = $"/repairs/{repair}/strip-down/bench";
        if (browser.Url != bench)
            await browser.Open(bench);
        await browser.Press("Add step", ("Input.What", Added), ("Input.Cell", ""));
        if (browser.Errors.Count > 0)
            throw new InvalidOperationException(string.Join(' ', browser.Errors));
    }

    /// <summary>So that the short record stays short.</summary>
    private static async Task TakeOutAsync(ShopHere shop, CancellationToken cancel)
    {
        await using var scope = shop.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        await db.StripSteps.Where(step => step.What == Added).ExecuteDeleteAsync(cancel);
    }

    private static async Task<FormClient> SignedInAsync(ShopHere shop)
    {
        var http = new HttpClient { BaseAddress = shop.Address };
        http.DefaultRequestHeaders.Add("Cookie", await shop.SignInAsync());
        return new FormClient(http);
    }

    /// <summary>Two repairs of the demo that nobody has taken apart, with so many steps each, their parts in one large tray.</summary>
    private static async Task<(string Long, string Short)> RepairsAsync(ShopHere shop, CancellationToken cancel)
    {
        await using var scope = shop.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        var repairs = await db.Repairs.Where(repair => repair.ReturnedAt == null && repair.ReadyAt == null && !db.StripSteps.Any(step => step.RepairId == repair.Id))
            .OrderBy(repair => repair.Number).Take(2).ToListAsync(cancel);
        foreach (var (repair, steps) in repairs.Zip([Many, Few]))
        {
            var tray = new Tray { RepairId = repair.Id, Name = "1", Rows = 20, Columns = 20 };
            db.Trays.Add(tray);
            for (var i = 0; i < steps; i++)
            {
                var step = new StripStep { RepairId = repair.Id, Rank = (i + 1) * StripOrder.Gap, TakenAt = repair.BookedAt.AddMinutes(i) };
                var written = StepRules.Write(
                    step, new StepFacts($"Part {i}", 1, HeldBy.Screw, Remember.None, "", "", 0, null, tray.Id, $"{new TrayCell(1 + (i / 20), 1 + (i % 20))}"), tray);
                if (!written.IsDone)
                    throw new InvalidOperationException(written.Failure.Message);
                db.StripSteps.Add(step);
            }
        }

        await db.SaveChangesAsync(cancel);
        return (repairs[0].Number, repairs[1].Number);
    }
}
