using System.Globalization;
using Xunit;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>
/// The accuracy table. A bar is the root-mean-square error over a line's signals; no single error beyond three bars; the mean error within a
/// third of one. The truth comes from profiles in closed form, never from the analysis.
/// </summary>
public class AccuracyTests
{
    public static TheoryData<string> Rows => [.. AccuracyTable.Asked.Concat(AccuracyTable.Harder).Select(row => row.Name)];

    [Theory]
    [MemberData(nameof(Rows))]
    public void A_line_of_the_table_keeps_its_bar(string name)
    {
        var row = AccuracyTable.Of(name);
        var (width, effective, missing) = row.Errors();
        TestContext.Current.TestOutputHelper?.WriteLine($"| {name} | {Told(width)} | {Told(effective)} |");
        Assert.Empty(missing);
        Assert.InRange(width.Count, AccuracyRow.LeastSignals, int.MaxValue);
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
