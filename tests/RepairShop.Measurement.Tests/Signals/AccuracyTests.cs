using System.Globalization;
using RepairShop.Testing.Signals;
using Xunit;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>
/// The accuracy table. A bar is the root-mean-square error over a line's signals; no single error beyond three bars; the mean error within a
/// third of one. The truth comes from profiles in closed form, never from the analysis.
/// </summary>
public class AccuracyTests
{
    private static readonly BladeLaw[] Straight = [BladeLaw.Straight];
    private static readonly BladeLaw[] Iris = [BladeLaw.Iris];
    private static readonly BladeLaw[] Uneven = [BladeLaw.Uneven, BladeLaw.Smooth];

    private static readonly AccuracyRow[] Table =
    [
        new("DC, noise 40 dB", 0.25, 0.001) { Seed = 1_000 },
        new("AC 0.5 to 10 Hz, noise 40 dB", 0.5, 0.003) { Seed = 2_000, IsAc = true },
        new("DC, noise 20 dB", 1.5, 0.01) { Seed = 3_000, NoiseDecibels = 20 },
        new("AC, noise 20 dB", 1.5, 0.01) { Seed = 4_000, NoiseDecibels = 20, IsAc = true },
        new("DC, hum 10 %", 1, 0.01) { Seed = 5_000, HasHum = true },
        new("AC, hum 10 %", 1, 0.01) { Seed = 6_000, HasHum = true, IsAc = true },
        new("DC, straight", 0.25, 0.001) { Seed = 7_000, Laws = Straight },
        new("AC, straight", 0.5, 0.003) { Seed = 8_000, Laws = Straight, IsAc = true },
        new("DC, iris", 0.25, 0.001) { Seed = 9_000, Laws = Iris },
        new("AC, iris", 0.5, 0.003) { Seed = 10_000, Laws = Iris, IsAc = true },
        new("DC, uneven", 0.25, 0.001) { Seed = 11_000, Laws = Uneven },
        new("AC, uneven", 0.5, 0.003) { Seed = 12_000, Laws = Uneven, IsAc = true },
        new("DC, bounce 30 %", 0.25, 0.001) { Seed = 13_000, HasBounce = true },
        new("AC, bounce 30 %", 0.5, 0.003) { Seed = 14_000, HasBounce = true, IsAc = true },
        new("DC, 44.1 kHz", 0.25, 0.001) { Seed = 15_000, RateHz = 44_100 },
        new("AC, 44.1 kHz", 0.5, 0.003) { Seed = 16_000, RateHz = 44_100, IsAc = true },
        new("DC, 96 kHz", 0.25, 0.001) { Seed = 17_000, RateHz = 96_000 },
        new("AC, 96 kHz", 0.5, 0.003) { Seed = 18_000, RateHz = 96_000, IsAc = true },
        new("DC, 192 kHz", 0.25, 0.001) { Seed = 19_000, RateHz = 192_000 },
        new("AC, 192 kHz", 0.5, 0.003) { Seed = 20_000, RateHz = 192_000, IsAc = true },
    ];

    public static TheoryData<string> Rows => [.. Table.Select(row => row.Name)];

    [Theory]
    [MemberData(nameof(Rows))]
    public void A_line_of_the_table_keeps_its_bar(string name)
    {
        var row = Table.Single(one => one.Name == name);
        var (width, effective, missing) = row.Errors();
        TestContext.Current.TestOutputHelper?.WriteLine($"| {name} | {Told(width)} | {Told(effective)} |");
        Assert.Empty(missing);
        Assert.Equal(AccuracyRow.Signals, width.Count);
        Assert.Multiple(() => Holds("50 % width", width), () => Holds("effective time", effective));
    }

    private static void Holds(string figure, List<double> errors)
    {
        Assert.True(Rms(errors) <= 1, $"{figure}: {Told(errors)}");
        Assert.True(errors.Max(Math.Abs) <= 3, $"{figure}: {Told(errors)}");
        Assert.True(Math.Abs(errors.Average()) <= 1 / 3.0, $"{figure}: {Told(errors)}");
    }

    private static double Rms(List<double> errors) => Math.Sqrt(errors.Average(e => e * e));

    /// <summary>Root mean square, mean and greatest, in bars.</summary>
    private static string Told(List<double> errors) => string.Create(
        CultureInfo.InvariantCulture, $"{Rms(errors):0.00}, {errors.Average():+0.00;-0.00}, {errors.Max(Math.Abs):0.00}");
}
