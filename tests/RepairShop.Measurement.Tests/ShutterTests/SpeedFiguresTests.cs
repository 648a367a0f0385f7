using System.Globalization;
using FsCheck;
using FsCheck.Fluent;
using RepairShop.Measurement.Checks;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Measurement.Statistics;
using Xunit;

namespace RepairShop.Measurement.Tests.ShutterTests;

public class SpeedFiguresTests
{
    private static readonly MarkedSpeed Mark125 = MarkedSpeed.Parse("1/125").Mark!;
    private static readonly SpeedLimits HalfStop = new("±1 stop", 1, 1, 0.008, "Chosen for these tests.");

    private static SpeedFigures Of(double[] seconds, double resolution = 0, double trigger = 0, SpeedLimits? limits = null, MarkedSpeed? mark = null) =>
        SpeedFigures.For(mark ?? Mark125, seconds, ReferenceRule.LiteralMark, limits, new(resolution, trigger));

    /// <summary>Worked by hand: 8.0, 8.2, 8.4 ms; s = 0.2 ms; s/√3 = 0.11547 ms; t95(2) = 4.3027 (JCGM 100:2008, table G.2: 4.30).</summary>
    [Fact]
    public void Three_readings_give_every_figure()
    {
        var figures = Of([0.0080, 0.0082, 0.0084], limits: SpeedLimits.Targets);
        Assert.Equal(0.0082, figures.Seconds.Mean, 1e-15);
        Assert.Equal(0.0002, figures.Seconds.StandardDeviation!.Value, 1e-15);
        Assert.Equal(0.008, figures.ReferenceSeconds);
        Assert.Equal(Math.Log2(1.025), figures.ErrorStops!.Value, 1e-12);
        Assert.Equal(4.302652729911275 * 0.0002 / Math.Sqrt(3), figures.Uncertainty!.Expanded, 1e-12);
        Assert.Equal(Math.Log2(1.05), figures.SpreadStops!.Value, 1e-12);
        Assert.Equal(0.3, figures.LimitStops);
        Assert.Equal(Verdict.Within, figures.Verdict);
    }

    [Fact]
    public void The_interval_is_even_in_seconds_and_longer_below_in_stops()
    {
        var figures = Of([0.0070, 0.0082, 0.0094]);
        var u = figures.Uncertainty!.Expanded;
        Assert.Equal(0.0082 - u, 0.008 * Math.Pow(2, figures.ErrorFromStops!.Value), 1e-12);
        Assert.Equal(0.0082 + u, 0.008 * Math.Pow(2, figures.ErrorToStops!.Value), 1e-12);
        Assert.True(figures.UncertaintyBelowStops > figures.UncertaintyAboveStops);
    }

    [Fact]
    public void Resolution_and_trigger_are_terms_of_their_own()
    {
        var figures = Of([0.0080, 0.0082, 0.0084], resolution: 0.0001, trigger: 0.00005);
        Assert.Equal([UncertaintySource.Scatter, UncertaintySource.Resolution, UncertaintySource.Trigger], figures.Uncertainty!.Terms.Select(t => t.Source));
        var expected = Math.Sqrt(0.0002 * 0.0002 / 3 + 1e-8 / 12 + 25e-10 / 3);
        Assert.Equal(expected, figures.Uncertainty.Standard, 1e-15);
        Assert.True(figures.Uncertainty.DegreesOfFreedom > 2);
    }

    [Fact]
    public void One_reading_proves_nothing_however_good_it_looks()
    {
        var figures = Of([0.008], resolution: 1e-6, limits: SpeedLimits.Targets);
        Assert.Null(figures.Uncertainty);
        Assert.Null(figures.ErrorFromStops);
        Assert.Null(figures.ErrorToStops);
        Assert.Null(figures.SpreadStops);
        Assert.Equal(0, figures.ErrorStops);
        Assert.Equal(Verdict.WithinNotProven, figures.Verdict);
        Assert.Equal(Verdict.OutsideNotProven, Of([0.020], limits: SpeedLimits.Targets).Verdict);
    }

    [Fact]
    public void Equal_readings_without_a_resolution_prove_nothing_but_with_one_they_do()
    {
        Assert.Null(Of([0.008, 0.008], limits: SpeedLimits.Targets).Uncertainty);
        Assert.Equal(Verdict.WithinNotProven, Of([0.008, 0.008], limits: SpeedLimits.Targets).Verdict);
        Assert.Equal(Verdict.Within, Of([0.008, 0.008], resolution: 0.0001, limits: SpeedLimits.Targets).Verdict);
    }

    [Fact]
    public void Scatter_beyond_the_mean_leaves_no_lower_end_and_proves_nothing()
    {
        var figures = Of([0.001, 0.015], limits: SpeedLimits.Targets);
        Assert.Null(figures.ErrorFromStops);
        Assert.Null(figures.UncertaintyBelowStops);
        Assert.NotNull(figures.ErrorToStops);
        Assert.Equal(Verdict.WithinNotProven, figures.Verdict);
    }

    /// <summary>
    /// Limits ±1 stop of 8 ms are 4 and 16 ms. Two readings m ± d give s = √2·d, so U = t95(1)·d with t95(1) = tan(0.475·π), a closed form.
    /// Each row puts one end of the interval a hair to one side of a limit.
    /// </summary>
    [Theory]
    [InlineData(15, 0.999, Verdict.Within)]
    [InlineData(15, 1.001, Verdict.WithinNotProven)]
    [InlineData(17, 1.001, Verdict.OutsideNotProven)]
    [InlineData(17, 0.999, Verdict.Outside)]
    [InlineData(5, 0.999, Verdict.Within)]
    [InlineData(5, 1.001, Verdict.WithinNotProven)]
    [InlineData(3, 1.001, Verdict.OutsideNotProven)]
    [InlineData(3, 0.999, Verdict.Outside)]
    public void The_verdict_turns_where_the_guard_band_meets_the_limit(double meanMs, double uncertaintyMs, Verdict verdict)
    {
        var half = uncertaintyMs / Math.Tan(0.475 * Math.PI);
        Assert.Equal(verdict, Of([(meanMs - half) / 1000, (meanMs + half) / 1000], limits: HalfStop).Verdict);
    }

    [Fact]
    public void B_has_figures_but_no_error_and_no_verdict()
    {
        var figures = Of([1.9, 2.1], limits: SpeedLimits.Targets, mark: MarkedSpeed.B);
        Assert.Equal(2, figures.Seconds.Mean, 1e-15);
        Assert.NotNull(figures.Uncertainty);
        Assert.Null(figures.ErrorStops);
        Assert.Null(figures.ReferenceSeconds);
        Assert.Equal(Verdict.NotJudged, figures.Verdict);
    }

    [Fact]
    public void Without_limits_there_is_an_error_and_no_verdict()
    {
        var figures = Of([0.008, 0.009]);
        Assert.NotNull(figures.ErrorStops);
        Assert.Equal(Verdict.NotJudged, figures.Verdict);
    }

    [Fact]
    public void The_rule_moves_the_error_by_what_the_mark_is_rounded()
    {
        var mark = MarkedSpeed.Parse("1/30").Mark!;
        double[] readings = [1.0 / 30, 1.0 / 30];
        Assert.Equal(0, SpeedFigures.For(mark, readings, ReferenceRule.LiteralMark, null, new(0)).ErrorStops!.Value, 1e-12);
        Assert.Equal(0.09311, SpeedFigures.For(mark, readings, ReferenceRule.TrueBinary, null, new(0)).ErrorStops!.Value, 5e-6);
    }

    [Fact]
    public void An_undescribed_instrument_is_as_fine_as_the_coarsest_reading_typed()
    {
        var readings = ReadingText.ParseLine("8.1 ms 8.12 ms 8.13 ms", CultureInfo.InvariantCulture).Readings;
        Assert.Equal(0.0001, TimingInstrument.AsTyped(readings).ResolutionSeconds, 1e-15);
        Assert.Throws<ArgumentOutOfRangeException>("readings", () => TimingInstrument.AsTyped([]));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-0.008)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Impossible_readings_are_misuse(double seconds) =>
        Assert.Throws<ArgumentOutOfRangeException>("readingsSeconds", () => Of([0.008, seconds]));

    [Fact]
    public void No_readings_and_impossible_instruments_are_misuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Of([]));
        Assert.Throws<ArgumentOutOfRangeException>("resolutionSeconds", () => new TimingInstrument(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("triggerHalfWidthSeconds", () => new TimingInstrument(0, -1));
    }

    [Fact]
    public void For_any_readings_the_error_lies_in_its_interval_and_figures_do_not_depend_on_order() =>
        Prop.ForAll(Arb.From(Gen.NonEmptyListOf(Gen.Choose(10, 3_600_000).Select(i => i * 1e-3))), readings =>
        {
            var figures = Of([.. readings], resolution: 0.001, limits: SpeedLimits.Targets);
            var reversed = Of([.. readings.AsEnumerable().Reverse()], resolution: 0.001, limits: SpeedLimits.Targets);
            return (figures.ErrorFromStops ?? double.NegativeInfinity) <= figures.ErrorStops
                && figures.ErrorStops <= (figures.ErrorToStops ?? double.PositiveInfinity)
                && figures.Verdict == reversed.Verdict
                && figures.Verdict != Verdict.NotJudged
                && figures.Uncertainty is null == (readings.Count == 1);
        }).QuickCheckThrowOnFailure();
}
