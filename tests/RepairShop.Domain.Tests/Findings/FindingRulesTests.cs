using RepairShop.Domain.Findings;
using RepairShop.Measurement.Checks;
using Xunit;

namespace RepairShop.Domain.Tests.Findings;

public class FindingRulesTests
{
    private static Finding Some(Action<Finding>? change = null)
    {
        var finding = new Finding { Component = "Shutter blades" };
        change?.Invoke(finding);
        return finding;
    }

    [Fact]
    public void A_component_alone_is_enough() => Assert.Null(FindingRules.WhyNot(Some()));

    [Theory]
    [InlineData("")]
    [InlineData("  ")]
    public void Without_a_component_there_is_no_finding(string component) =>
        Assert.IsType<ComponentMissing>(FindingRules.WhyNot(Some(finding => finding.Component = component)));

    [Fact]
    public void A_gauge_needs_its_value() =>
        Assert.Equal(new GaugeNeedsValue("Flange distance"), FindingRules.WhyNot(Some(finding => finding.GaugeName = "Flange distance")));

    [Fact]
    public void Limits_alone_need_a_value_too() =>
        Assert.IsType<GaugeNeedsValue>(FindingRules.WhyNot(Some(finding => finding.GaugeLow = 0)));

    [Fact]
    public void A_value_needs_a_name() => Assert.IsType<GaugeNeedsName>(FindingRules.WhyNot(Some(finding => finding.GaugeValue = 0)));

    [Fact]
    public void Crossed_limits_are_refused_and_equal_ones_are_not()
    {
        Finding With(double low, double high) => Some(finding =>
            (finding.GaugeName, finding.GaugeValue, finding.GaugeLow, finding.GaugeHigh) = ("Run", 9, low, high));
        Assert.Equal(new GaugeLimitsCrossed(10, 9.9), FindingRules.WhyNot(With(10, 9.9)));
        Assert.Null(FindingRules.WhyNot(With(9, 9)));
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void What_is_no_number_is_refused(double value) =>
        Assert.Equal(new GaugeNotFinite("GaugeValue"), FindingRules.WhyNot(Some(finding => (finding.GaugeName, finding.GaugeValue) = ("Run", value))));

    [Theory]
    [InlineData(8.0, Verdict.Within)]
    [InlineData(10.0, Verdict.Within)]
    [InlineData(10.1, Verdict.Outside)]
    public void The_verdict_is_that_of_the_gauge(double value, Verdict verdict) =>
        Assert.Equal(verdict, FindingRules.GaugeOf(Some(finding =>
            (finding.GaugeName, finding.GaugeValue, finding.GaugeLow, finding.GaugeHigh) = ("Run", value, 8, 10)))!.Verdict);

    [Fact]
    public void Without_limits_nothing_is_judged() =>
        Assert.Equal(Verdict.NotJudged, FindingRules.GaugeOf(Some(finding => (finding.GaugeName, finding.GaugeValue) = ("Run", 9)))!.Verdict);

    [Fact]
    public void Every_condition_has_its_word() =>
        Assert.Equal(
            ["sound", "worn", "damaged", "contaminated", "missing", "earlier repair"],
            Enum.GetValues<Condition>().Select(ConditionWords.Of));
}
