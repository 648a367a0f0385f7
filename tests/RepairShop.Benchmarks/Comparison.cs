namespace RepairShop.Benchmarks;

/// <summary>One line of the table: the medians of both sides, the median of the rounds' ratios, and the aim.</summary>
/// <param name="Name">What was measured.</param>
/// <param name="Ours">The median of our side.</param>
/// <param name="Other">The median of what it is held against.</param>
/// <param name="Unit">Of both.</param>
/// <param name="Ratios">One a round, lowest first.</param>
/// <param name="Aim">In words.</param>
/// <param name="IsMet">Whether the middle ratio meets the aim; nothing for a figure that is only told.</param>
public sealed record Comparison(
    string Name, double Ours, double Other, string Unit, IReadOnlyList<double> Ratios, string Aim, Func<double, bool>? IsMet)
{
    public double Ratio => Rounds.Median(Ratios);

    /// <summary>From the two sides' figures, round by round.</summary>
    public static Comparison Of(
        string name, string unit, IReadOnlyList<(double Ours, double Other)> rounds, Func<double, double, double> ratio, string aim, Func<double, bool>? isMet) =>
        new(name, Rounds.Median(rounds.Select(round => round.Ours)), Rounds.Median(rounds.Select(round => round.Other)), unit,
            [.. rounds.Select(round => ratio(round.Ours, round.Other)).Order()], aim, isMet);

    public static void Print(IReadOnlyList<Comparison> results)
    {
        Console.WriteLine();
        Console.WriteLine($"| {"what",-46} | {"ours",12} | {"other",12} | {"ratio",6} | {"lowest to highest",17} | {"aim",-14} | result |");
        Console.WriteLine("| --- | --- | --- | --- | --- | --- | --- |");
        foreach (var one in results)
        {
            var said = one.IsMet is null ? "told" : one.IsMet(one.Ratio) ? "met" : "missed";
            Console.WriteLine($"| {one.Name,-46} | {$"{one.Ours:0.00} {one.Unit}",12} | {$"{one.Other:0.00} {one.Unit}",12} | {one.Ratio,6:0.00} | {$"{one.Ratios[0]:0.00} to {one.Ratios[^1]:0.00}",17} | {one.Aim,-14} | {said,-6} |");
        }
    }
}
