using RepairShop.Domain.Results;
using RepairShop.Domain.Tools;
using RepairShop.Measurement.Tools;
using Xunit;

namespace RepairShop.Domain.Tests.Tools;

public class ToolRulesTests
{
    private static readonly SpannerMeasures Whole = new()
    {
        OuterDiameter = 31.5,
        InnerDiameter = 26,
        Depth = 12,
        PinCircle = 28.5,
        PinWidth = 1.8,
        PinHeight = 1,
    };

    private static readonly MountMeasures Ring = new() { RecessDiameter = 32, RecessDepth = 0, NotchCircle = 28.5, NotchWidth = 2, NotchDepth = 1.2 };

    private static Tool Spanner(SpannerMeasures measures) => new() { Name = "Rear ring spanner", Kind = ToolKind.RingSpanner, Spanner = measures };

    [Fact]
    public void A_spanner_half_measured_may_stand_in_the_register_but_not_be_held_against_a_mount()
    {
        var half = Whole with { PinHeight = null };
        Assert.Null(ToolRules.WhyNot(Spanner(half)));
        Assert.Equal(new MeasureMissing("Spanner.PinHeight", "Pin height"), half.Whole().Failure);
        Assert.Equal(new RingSpanner(31.5, 26, 12, 28.5, 1.8, 1), Whole.Whole().Value);
    }

    [Fact]
    public void A_tool_without_a_name_is_refused() => Assert.Equal(new ToolNameMissing(), ToolRules.WhyNot(new Tool { Name = " " }));

    [Fact]
    public void Only_a_ring_spanner_has_tube_and_pins() =>
        Assert.Equal(new OnlyRingSpannersHavePins(), ToolRules.WhyNot(new Tool { Name = "Jig", Kind = ToolKind.Jig, Spanner = Whole }));

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(1000.1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Impossible_lengths_are_named(double length)
    {
        Assert.Equal(new MeasureOutOfRange("Spanner.Depth", "Depth"), ToolRules.WhyNot(Spanner(Whole with { Depth = length })));
        Assert.Equal(new MeasureOutOfRange("Mount.NotchWidth", "Notch width"), (Ring with { NotchWidth = length }).WhyNot());
    }

    [Fact]
    public void A_tube_has_a_wall_and_sides_within_it()
    {
        Assert.Equal(new BoreWiderThanTube(), ToolRules.WhyNot(Spanner(Whole with { InnerDiameter = 31.5 })));
        Assert.Equal(new CutAwayWiderThanTube(), ToolRules.WhyNot(Spanner(Whole with { CutAwayWidth = 31.51 })));
        Assert.Null(ToolRules.WhyNot(Spanner(Whole with { CutAwayWidth = 31.5 })));
        Assert.Equal(new PinsOutOfRange(0), ToolRules.WhyNot(Spanner(Whole with { Pins = 0 })));
        Assert.Equal(new PinsOutOfRange(13), ToolRules.WhyNot(Spanner(Whole with { Pins = 13 })));
    }

    [Fact]
    public void A_mount_names_its_camera_and_its_ring()
    {
        Assert.Equal(new MountCameraMissing(), ToolRules.WhyNot(new Mount { Name = "Rear ring", Measures = Ring }));
        Assert.Equal(new MountNameMissing(), ToolRules.WhyNot(new Mount { Camera = "Example Works 1", Measures = Ring }));
        Assert.Null(ToolRules.WhyNot(new Mount { Camera = "Example Works 1", Name = "Rear ring", Measures = Ring }));
    }

    [Fact]
    public void A_rear_group_stands_above_or_below_its_ring_and_a_ring_may_lie_flush()
    {
        Assert.Null((Ring with { RearGroupDiameter = 25, RearGroupHeight = -2 }).WhyNot());
        Assert.Equal(new MeasureOutOfRange("Mount.RecessDepth", "Recess depth"), (Ring with { RecessDepth = -0.1 }).WhyNot());
        Assert.Equal(new MeasureMissing("Mount.RecessDepth", "Recess depth"), (Ring with { RecessDepth = null }).Whole().Failure);
    }

    [Fact]
    public void A_rear_group_in_the_way_needs_both_its_measures()
    {
        Assert.Equal("Mount.RearGroupHeight", ((Invalid)(Ring with { RearGroupDiameter = 25 }).Whole().Failure!).Field);
        Assert.True(Ring.Whole().IsDone);
    }

    [Fact]
    public void A_film_gate_has_its_long_side_first() =>
        Assert.Equal(new GateSidesSwapped(), (Ring with { GateWidth = 24, GateHeight = 36 }).WhyNot());

    [Theory]
    [InlineData(LengthUnit.Millimetre, "Turn the outside down by 1.20 mm, to 31.75 mm.")]
    [InlineData(LengthUnit.Inch, "Turn the outside down by 0.0472 in, to 1.2500 in.")]
    public void Advice_is_given_in_the_unit_of_the_lathe(LengthUnit unit, string words)
    {
        System.Globalization.CultureInfo.CurrentCulture = System.Globalization.CultureInfo.InvariantCulture;
        Assert.Equal(words, ToolWords.Of(new Correction(SpannerMeasure.OuterDiameter, -1.2, 31.75), unit));
    }

    [Fact]
    public void Measures_are_written_in_one_line_and_what_is_missing_is_left_out()
    {
        System.Globalization.CultureInfo.CurrentCulture = System.Globalization.CultureInfo.InvariantCulture;
        Assert.Equal("Ø 31.50 / 26.00, 12.00 deep, 2 pins 1.80 × 1.00 on 28.50 mm", ToolWords.Of(Whole, LengthUnit.Millimetre));
        Assert.Equal("Ø 31.50 / ? mm", ToolWords.Of(new SpannerMeasures { OuterDiameter = 31.5 }, LengthUnit.Millimetre));
        Assert.Equal("", ToolWords.Of(new SpannerMeasures(), LengthUnit.Millimetre));
    }
}
