using RepairShop.Measurement.Exposure;
using RepairShop.Measurement.Gauges;
using RepairShop.Measurement.ShutterTests;
using Xunit;

namespace RepairShop.Measurement.Tests.Gauges;

public class EvCouplingTests
{
    private static readonly double[] Ring = [2.8, 4, 5.6, 8, 11, 16, 22];

    private static IReadOnlyList<EvPair> Pairs(double value, SpeedSeries series, ReferenceRule rule = ReferenceRule.TrueBinary, double[]? ring = null) =>
        EvCoupling.PairsAt(value, series.Marks, ring ?? Ring, SpeedSeries.RuleFor(series.Marks, rule));

    /// <summary>Published pairs: EV 15 is f/16 at 1/125 and f/8 at 1/500; EV 12 is f/8 at 1/60, f/11 at 1/30 and f/32 at 1/4 (dictionary of optyczne.pl).</summary>
    [Theory]
    [InlineData(15, "1/125", 16)]
    [InlineData(15, "1/500", 8)]
    [InlineData(12, "1/60", 8)]
    [InlineData(12, "1/30", 11)]
    [InlineData(12, "1/4", 32)]
    public void Published_pairs_stand_in_the_table(double value, string speed, double mark)
    {
        var pair = Pairs(value, SpeedSeries.Modern500, ring: [.. Ring, 32]).Single(one => one.Speed.Text == speed);
        Assert.Equal(mark, pair.Mark);
        Assert.Equal(0, pair.MarkOffStops!.Value, 1e-12);
    }

    /// <summary>The published row of EV 12, from f/2 at 1/1000 to f/22 at 1/8 (wuthri.ch).</summary>
    [Fact]
    public void A_published_row_is_met_mark_by_mark() =>
        Assert.Equal(
            ["1/8 f/22", "1/15 f/16", "1/30 f/11", "1/60 f/8", "1/125 f/5.6", "1/250 f/4", "1/500 f/2.8", "1/1000 f/2"],
            Pairs(12, SpeedSeries.Modern1000, ring: [2, .. Ring]).Select(pair => FormattableString.Invariant($"{pair.Speed.Text} f/{pair.Mark}")));

    [Fact]
    public void Every_pair_of_the_table_holds_its_value()
    {
        for (var value = -2.0; value <= 18; value += 0.5)
            Assert.All(Pairs(value, SpeedSeries.Modern1000), pair =>
                Assert.Equal(value, ExposureValue.Ev(pair.FNumber, pair.Seconds), 1e-9));
    }

    [Fact]
    public void The_coupling_ends_where_the_aperture_ring_ends()
    {
        var pairs = Pairs(10, SpeedSeries.Modern500);
        Assert.Equal(("1/2", "1/125"), (pairs[0].Speed.Text, pairs[^1].Speed.Text));
        Assert.Equal((22, 2.8), (pairs[0].Mark, pairs[^1].Mark));
    }

    [Fact]
    public void Half_a_value_falls_between_two_marks()
    {
        Assert.All(Pairs(10.5, SpeedSeries.Modern500), pair => Assert.Null(pair.Mark));
        Assert.All(Pairs(10.25, SpeedSeries.Modern500), pair => Assert.Equal(0.25, Math.Abs(pair.MarkOffStops!.Value), 1e-9));
    }

    /// <summary>
    /// Coupled where 1/25 meets f/8, Ev = 6 + 4.64386. Then 1/50 meets f/5.6 and 1/100 f/4 exactly, but 1/10 wants f/12.65: half way between f/11 and f/16 in
    /// stops is f/13.45, and f/11 is 2·log2(11.3137/12.65) = −0.322 off, so no mark stands there.
    /// </summary>
    [Fact]
    public void Old_speeds_leave_a_rest_that_no_adjusting_removes()
    {
        var pairs = Pairs(6 + 4.6438562, SpeedSeries.Old500).ToDictionary(pair => pair.Speed.Text);
        Assert.Equal((8, 5.6, 4), (pairs["1/25"].Mark, pairs["1/50"].Mark, pairs["1/100"].Mark));
        Assert.Null(pairs["1/10"].Mark);
        Assert.Equal(12.649, pairs["1/10"].FNumber, 5e-4);
    }

    /// <summary>f/8 at 1/125 in marks read literally is 12.96578; from true values it is 13.</summary>
    [Theory]
    [InlineData(8, 0)]
    [InlineData(11, 1)]
    [InlineData(5.6, -1)]
    [InlineData(9.5, 0.4959)]
    [InlineData(6.7, -0.5117)]
    public void How_far_a_pair_is_off_is_told_in_stops(double read, double stops)
    {
        var pair = Pairs(13, SpeedSeries.Modern500).Single(one => one.Speed.Text == "1/125");
        Assert.Equal(stops, EvCoupling.OffStops(13, pair, read), 5e-5);
    }

    [Fact]
    public void Time_and_bulb_have_no_pair() =>
        Assert.DoesNotContain(Pairs(6, SpeedSeries.Old500), pair => pair.Speed == MarkedSpeed.B || pair.Speed == MarkedSpeed.T);

    [Fact]
    public void Nonsense_is_misuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>("value", () => Pairs(double.NaN, SpeedSeries.Modern500));
        Assert.Throws<ArgumentOutOfRangeException>("value", () => Pairs(31, SpeedSeries.Modern500));
        Assert.Throws<ArgumentOutOfRangeException>("apertureMarks", () => Pairs(12, SpeedSeries.Modern500, ring: []));
        Assert.Throws<ArgumentOutOfRangeException>(() => Pairs(12, SpeedSeries.Modern500, ring: [8, 0]));
    }
}
