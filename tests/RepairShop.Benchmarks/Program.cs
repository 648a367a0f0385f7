using System.Globalization;
using RepairShop.Benchmarks;
using RepairShop.Testing;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
if (args is ["--empty-app", var url])
    return await EmptyApp.RunAsync(url);

Dictionary<string, Func<PostgresServer, CancellationToken, Task<IReadOnlyList<Comparison>>>> all = new()
{
    ["signal"] = (_, cancel) => SignalSpeed.RunAsync(cancel),
    ["paper"] = (_, cancel) => InvoicePdf.RunAsync(cancel),
    ["sheet"] = SheetThroughput.RunAsync,
    ["start"] = ColdStart.RunAsync,
    ["lists"] = Lists.RunAsync,
    ["strip"] = LongStrip.RunAsync,
    ["issue"] = Issuing.RunAsync,
    ["figures"] = Figures.RunAsync,
};
if (args.FirstOrDefault(name => !all.ContainsKey(name)) is { } unknown)
{
    await Console.Error.WriteLineAsync($"There is no benchmark “{unknown}”: give any of {string.Join(", ", all.Keys)}, or none for all.");
    return 2;
}

var results = new List<Comparison>();
await using (var server = new PostgresServer())
{
    foreach (var (name, run) in all.Where(one => args.Length == 0 || args.Contains(one.Key)))
    {
        Console.WriteLine($"Measuring: {name}");
        results.AddRange(await run(server, CancellationToken.None));
    }
}

Comparison.Print(results);
return 0;
