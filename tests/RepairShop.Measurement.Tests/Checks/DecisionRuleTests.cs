using RepairShop.Measurement.Checks;
using Xunit;

namespace RepairShop.Measurement.Tests.Checks;

public class DecisionRuleTests
{
    /// <summary>
    /// The micrometer of texts on ISO 14253-1: limit ±0.003, U 0.001, hence accepted to ±0.002; +0.0017 is proven within, +0.0025 is not.
    /// The remaining states follow ILAC-G8:09/2019, 4.2.2.
    /// </summary>
    [Theory]
    [InlineData(0.0017, Verdict.Within)]
    [InlineData(0.002, Verdict.Within)]
    [InlineData(0.0020001, Verdict.WithinNotProven)]
    [InlineData(0.0025, Verdict.WithinNotProven)]
    [InlineData(0.003, Verdict.WithinNotProven)]
    [InlineData(0.0030001, Verdict.OutsideNotProven)]
    [InlineData(0.004, Verdict.OutsideNotProven)]
    [InlineData(0.0040001, Verdict.Outside)]
    public void A_micrometer_is_judged_with_guard_bands_on_both_sides(double error, Verdict verdict)
    {
        Assert.Equal(verdict, DecisionRule.Judge(error, -0.003, 0.003, 0.001));
        Assert.Equal(verdict, DecisionRule.Judge(-error, -0.003, 0.003, 0.001));
    }

    [Theory]
    [InlineData(10, Verdict.Within)]
    [InlineData(10.5, Verdict.Within)]
    [InlineData(10.6, Verdict.WithinNotProven)]
    [InlineData(12.5, Verdict.OutsideNotProven)]
    [InlineData(13.5, Verdict.OutsideNotProven)]
    [InlineData(13.6, Verdict.Outside)]
    [InlineData(-1e9, Verdict.Within)]
    public void One_limit_alone_leaves_the_other_side_open(double value, Verdict verdict)
    {
        Assert.Equal(verdict, DecisionRule.Judge(value, null, 12, 1.5));
        Assert.Equal(verdict, DecisionRule.Judge(-value, -12, null, 1.5));
    }

    [Fact]
    public void An_uncertainty_wider_than_the_limits_proves_nothing_inside() =>
        Assert.Equal(Verdict.WithinNotProven, DecisionRule.Judge(0, -0.3, 0.3, 0.31));

    [Fact]
    public void Without_limits_nothing_is_judged() =>
        Assert.Equal(Verdict.NotJudged, DecisionRule.Judge(1, null, null, 0.1));

    [Fact]
    public void An_open_interval_proves_nothing_on_its_side()
    {
        Assert.Equal(Verdict.WithinNotProven, DecisionRule.Judge(0, double.NegativeInfinity, 0.1, -0.3, 0.3));
        Assert.Equal(Verdict.OutsideNotProven, DecisionRule.Judge(1, double.NegativeInfinity, double.PositiveInfinity, -0.3, 0.3));
    }

    [Fact]
    public void A_last_digit_of_arithmetic_decides_nothing() =>
        // 0.1 + 0.2 is 0.30000000000000004.
        Assert.Equal(Verdict.Within, DecisionRule.JudgeSimply(0.1 + 0.2, -0.3, 0.3));

    [Theory]
    [InlineData(0.3, Verdict.Within)]
    [InlineData(0.301, Verdict.Outside)]
    [InlineData(-0.301, Verdict.Outside)]
    public void A_simple_comparison_knows_two_states(double value, Verdict verdict) =>
        Assert.Equal(verdict, DecisionRule.JudgeSimply(value, -0.3, 0.3));

    [Fact]
    public void Numbers_that_are_none_are_misuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>("value", () => DecisionRule.Judge(double.NaN, 0, 1, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>("low", () => DecisionRule.Judge(0, double.NaN, 1, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>("high", () => DecisionRule.Judge(0, 0, double.PositiveInfinity, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>("expandedUncertainty", () => DecisionRule.Judge(0, 0, 1, -0.1));
        Assert.Throws<ArgumentOutOfRangeException>("expandedUncertainty", () => DecisionRule.Judge(0, 0, 1, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("high", () => DecisionRule.Judge(0, 1, 0, 0.1));
        Assert.Throws<ArgumentOutOfRangeException>("from", () => DecisionRule.Judge(0, double.NaN, 1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>("to", () => DecisionRule.Judge(0, -1, -0.5, 0, 1));
    }

    public class AGauge
    {
        [Theory]
        [InlineData(27.95, Verdict.Within)]
        [InlineData(27.94, Verdict.Within)]
        [InlineData(27.93, Verdict.Outside)]
        [InlineData(27.99, Verdict.Outside)]
        public void Without_uncertainty_is_within_or_outside(double value, Verdict verdict) =>
            Assert.Equal(verdict, new Gauge(value, "mm", 27.94, 27.98).Verdict);

        [Theory]
        [InlineData(27.96, Verdict.Within)]
        [InlineData(27.945, Verdict.WithinNotProven)]
        [InlineData(27.935, Verdict.OutsideNotProven)]
        [InlineData(27.92, Verdict.Outside)]
        public void With_uncertainty_has_four_states(double value, Verdict verdict) =>
            Assert.Equal(verdict, new Gauge(value, "mm", 27.94, 27.98, 0.01).Verdict);

        [Fact]
        public void Without_limits_is_not_judged() => Assert.Equal(Verdict.NotJudged, new Gauge(9.8, "s", null, null).Verdict);

        [Fact]
        public void Of_nonsense_is_misuse()
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => new Gauge(double.NaN, "mm", 0, 1));
            Assert.Throws<ArgumentOutOfRangeException>(() => new Gauge(1, "mm", 2, 1));
            Assert.Throws<ArgumentOutOfRangeException>(() => new Gauge(1, "mm", 0, 1, -0.1));
        }
    }
}
