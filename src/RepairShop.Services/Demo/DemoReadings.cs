using System.Globalization;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Services.ShutterTests;

namespace RepairShop.Services.Demo;

/// <summary>Readings as a light sensor in front of a tired or a serviced shutter would give them, typed by hand.</summary>
internal static class DemoReadings
{
    // Repeatability of between-lens shutters: 0.5-2 % at the slow end, 2-3 % at the fast end (ISP Commission I symposium, means of six exposures).
    private const double SlowScatter = 0.012;
    private const double FastScatter = 0.025;

    /// <param name="marks">The dial, slowest first.</param>
    /// <param name="errors">What the shutter does, in stops.</param>
    /// <param name="count">Exposures at each speed.</param>
    /// <param name="chance">Seeded by the repair, so that the demo is the same every time.</param>
    public static IReadOnlyList<SpeedTyped> Of(IReadOnlyList<string> marks, SeedErrors errors, int count, Random chance) =>
        [.. marks.Select((mark, index) => new SpeedTyped(mark, Line(mark, Place(index, marks.Count), errors, count, chance)))];

    private static double Place(int index, int count) => count == 1 ? 0 : (double)index / (count - 1);

    private static string Line(string mark, double place, SeedErrors errors, int count, Random chance)
    {
        var stops = place < 0.5
            ? errors.Slow + (errors.Middle - errors.Slow) * place * 2
            : errors.Middle + (errors.Fast - errors.Middle) * (place - 0.5) * 2;
        var scatter = SlowScatter + (FastScatter - SlowScatter) * place;
        var reference = MarkedSpeed.Parse(mark).Mark!.LiteralSeconds!.Value;
        return string.Join("; ", Enumerable.Range(0, count).Select(_ => Typed(reference * Math.Pow(2, stops) * (1 + scatter * Bell(chance)))));
    }

    private static string Typed(double seconds) => seconds >= 0.3
        ? seconds.ToString("0.000", CultureInfo.InvariantCulture) + " s"
        : (seconds * 1000).ToString(seconds >= 0.02 ? "0.0" : "0.00", CultureInfo.InvariantCulture) + " ms";

    /// <summary>A sum of uniform chances: near enough to a bell curve, never far out.</summary>
    private static double Bell(Random chance) => Enumerable.Range(0, 6).Sum(_ => chance.NextDouble()) / 3 * 1.4142 - 1.4142;
}
