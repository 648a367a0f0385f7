namespace RepairShop.Benchmarks;

/// <summary>A B A B: both sides feel the same weather, and the order turns with every round.</summary>
internal static class Rounds
{
    public static async Task<IReadOnlyList<(double Ours, double Other)>> RunAsync(int rounds, Func<Task<double>> ours, Func<Task<double>> other)
    {
        var taken = new List<(double, double)>(rounds);
        for (var round = 0; round < rounds; round++)
        {
            if (round % 2 == 0)
            {
                var first = await ours();
                taken.Add((first, await other()));
            }
            else
            {
                var first = await other();
                taken.Add((await ours(), first));
            }
        }

        return taken;
    }

    public static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        var middle = sorted.Count / 2;
        return sorted.Count % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
    }
}
