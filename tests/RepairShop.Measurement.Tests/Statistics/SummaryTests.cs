using FsCheck;
using FsCheck.Fluent;
using RepairShop.Measurement.Statistics;
using Xunit;

namespace RepairShop.Measurement.Tests.Statistics;

public class SummaryTests
{
    /// <summary>
    /// Certified values of NIST StRD. Digits: the number of equal leading digits asked for. NumAcc3 and 4 lose theirs in the data themselves:
    /// 10000000.1 is stored to 2·10⁻⁹, which leaves s = 0.1 about eight digits.
    /// </summary>
    [Theory]
    [InlineData("Lottery", 218, 518.958715596330, 291.699727470969, 14, 14)]
    [InlineData("Mavro", 50, 2.00185600000000, 0.000429123454003053, 15, 12)]
    [InlineData("Michelso", 100, 299.852400000000, 0.0790105478190518, 15, 12)]
    [InlineData("NumAcc1", 3, 10000002, 1, 15, 15)]
    [InlineData("NumAcc2", 1001, 1.2, 0.1, 15, 14)]
    [InlineData("NumAcc3", 1001, 1000000.2, 0.1, 15, 9)]
    [InlineData("NumAcc4", 1001, 10000000.2, 0.1, 15, 8)]
    public void Agrees_with_certified_values_to_the_digits_stated(string set, int count, double mean, double deviation, int meanDigits, int deviationDigits)
    {
        var summary = Summary.Of(NistUnivariate.Of(set));
        Assert.Equal(count, summary.Count);
        Assert.InRange(Digits(summary.Mean, mean), meanDigits, 17);
        Assert.InRange(Digits(summary.StandardDeviation!.Value, deviation), deviationDigits, 17);
    }

    /// <summary>JCGM 100:2008, 4.4.3, table 1: twenty temperatures in °C.</summary>
    [Fact]
    public void Agrees_with_the_worked_example_of_the_Guide()
    {
        var summary = Summary.Of(
        [
            96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
            100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
        ]);
        Assert.Equal(100.145, summary.Mean, 1e-12);
        Assert.Equal(1.489, summary.StandardDeviation!.Value, 5e-4);
        Assert.Equal(0.333, summary.StandardDeviationOfMean!.Value, 5e-4);
        Assert.Equal((20, 96.90, 102.72), (summary.Count, summary.Minimum, summary.Maximum));
    }

    [Fact]
    public void One_reading_has_a_mean_and_no_deviation() =>
        Assert.Equal(new Summary(1, 0.008, null, 0.008, 0.008), Summary.Of([0.008]));

    [Fact]
    public void Two_readings_have_a_deviation_of_their_half_difference_times_root_two() =>
        Assert.Equal(2 / Math.Sqrt(2), Summary.Of([7, 9]).StandardDeviation!.Value, 1e-15);

    [Fact]
    public void Equal_readings_have_no_scatter_and_exactly_their_own_mean() =>
        Assert.Equal(new Summary(7, 0.1, 0, 0.1, 0.1), Summary.Of([0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1]));

    [Fact]
    public void No_reading_is_misuse() =>
        Assert.Throws<ArgumentOutOfRangeException>("readings", () => Summary.Of([]));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void A_reading_that_is_no_number_is_misuse(double reading) =>
        Assert.Throws<ArgumentOutOfRangeException>("readings", () => Summary.Of([1, reading]));

    [Fact]
    public void The_mean_lies_between_least_and_greatest_and_order_does_not_matter() =>
        Prop.ForAll(Arb.From(Gen.NonEmptyListOf(Gen.Choose(-1_000_000, 1_000_000).Select(i => i / 977.0))), readings =>
        {
            var summary = Summary.Of([.. readings]);
            var reversed = Summary.Of([.. readings.AsEnumerable().Reverse()]);
            return summary.Minimum <= summary.Mean && summary.Mean <= summary.Maximum
                && Math.Abs(summary.Mean - reversed.Mean) <= 1e-11
                && summary.StandardDeviation is null == (readings.Count == 1)
                && Math.Abs((summary.StandardDeviation ?? 0) - (reversed.StandardDeviation ?? 0)) <= 1e-9;
        }).QuickCheckThrowOnFailure();

    /// <summary>Number of equal leading digits, as NIST counts them: −log10 of the relative error.</summary>
    private static int Digits(double computed, double certified) =>
        computed.Equals(certified) ? 17 : (int)Math.Round(-Math.Log10(Math.Abs(computed - certified) / Math.Abs(certified)), MidpointRounding.ToZero);
}
