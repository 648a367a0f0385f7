using RepairShop.Measurement.Tools;
using Xunit;

namespace RepairShop.Measurement.Tests.Tools;

/// <summary>Hand-worked examples: half the difference of two diameters is the room on one side, and a missing millimetre of room costs two of diameter.</summary>
public class RingSpannerFitTests
{
    /// <summary>Recess 32 × 6, rear group 25 standing 4 proud, notches 2 × 1.2 on 28.5, film gate 36 × 24.</summary>
    private static readonly SpannerMount Mount = new(32, 6, 25, 4, 28.5, 2, 1.2, 36, 24);

    /// <summary>Tube 31.5 / 26, 12 deep, pins 1.8 × 1.0 on 28.5, cut away to 23.5.</summary>
    private static readonly RingSpanner Good = new(31.5, 26, 12, 28.5, 1.8, 1.0, 23.5);

    private static Clearance At(ClearancePlace place, RingSpanner spanner, SpannerMount? mount = null) =>
        new RingSpannerFit(spanner, mount ?? Mount).Clearances.Single(one => one.Place == place);

    [Theory]
    [InlineData(ClearancePlace.Recess, 0.25)] // (32 − 31.5)/2
    [InlineData(ClearancePlace.RearGroup, 0.5)] // (26 − 25)/2
    [InlineData(ClearancePlace.Reach, 6)] // 12 − 6
    [InlineData(ClearancePlace.OverRearGroup, 8)] // 12 − 4
    [InlineData(ClearancePlace.PinCircle, 0.15)] // the whole allowance
    [InlineData(ClearancePlace.PinWidth, 0.2)] // 2 − 1.8
    [InlineData(ClearancePlace.PinHeight, 0.2)] // 1.2 − 1.0
    [InlineData(ClearancePlace.GateLongSide, 2.25)] // (36 − 31.5)/2
    [InlineData(ClearancePlace.GateShortSide, 0.25)] // (24 − 23.5)/2
    [InlineData(ClearancePlace.PinsOnTube, 1.25)] // (28.5 − 26)/2 is less than 23.5/2 − 1.8/2
    [InlineData(ClearancePlace.Wall, 2.75)] // (31.5 − 26)/2
    public void A_spanner_that_fits_has_these_clearances(ClearancePlace place, double room)
    {
        var clearance = At(place, Good);
        Assert.Equal(room, clearance.Room, 1e-9);
        Assert.Equal(ClearanceState.Free, clearance.State);
        Assert.Null(clearance.Correction);
    }

    [Fact]
    public void Its_verdict_is_free_and_every_place_was_looked_at()
    {
        var fit = new RingSpannerFit(Good, Mount);
        Assert.Equal((ClearanceState.Free, true), (fit.Verdict, fit.CanBeMade));
        Assert.Equal(Enum.GetValues<ClearancePlace>().Order(), fit.Clearances.Select(one => one.Place).Order());
    }

    /// <summary>Each measure changed alone, with the room wanted of 0.1 on a side, 0.5 in length and 0.05 at a pin.</summary>
    [Fact]
    public void What_fouls_says_what_to_turn_and_by_how_much()
    {
        // (32 − 33)/2 = −0.5; 32 − 0.2 = 31.8.
        Same(new(ClearancePlace.Recess, -0.5, 0.1, ClearanceState.Fouls, new(SpannerMeasure.OuterDiameter, -1.2, 31.8)), At(ClearancePlace.Recess, Good with { OuterDiameter = 33 }));
        // (24.5 − 25)/2 = −0.25; 25 + 0.2 = 25.2.
        Same(new(ClearancePlace.RearGroup, -0.25, 0.1, ClearanceState.Fouls, new(SpannerMeasure.InnerDiameter, 0.7, 25.2)), At(ClearancePlace.RearGroup, Good with { InnerDiameter = 24.5 }));
        // 5 − 6 = −1; 6.5 deep.
        Same(new(ClearancePlace.Reach, -1, 0.5, ClearanceState.Fouls, new(SpannerMeasure.Depth, 1.5, 6.5)), At(ClearancePlace.Reach, Good with { Depth = 5 }));
        // (24 − 31.5)/2 = −3.75; 24 − 0.2 = 23.8 across.
        Same(new(ClearancePlace.GateShortSide, -3.75, 0.1, ClearanceState.Fouls, new(SpannerMeasure.CutAwayWidth, -7.7, 23.8)), At(ClearancePlace.GateShortSide, Good with { CutAwayWidth = null }));
        // 2 − 2.1 = −0.1; filed to 1.95.
        Same(new(ClearancePlace.PinWidth, -0.1, 0.05, ClearanceState.Fouls, new(SpannerMeasure.PinWidth, -0.15, 1.95)), At(ClearancePlace.PinWidth, Good with { PinWidth = 2.1 }));
        // 0.15 − (29.5 − 28.5)/2 = −0.35, less than half a notch.
        Same(new(ClearancePlace.PinCircle, -0.35, 0, ClearanceState.Tight, new(SpannerMeasure.PinCircle, -1, 28.5)), At(ClearancePlace.PinCircle, Good with { PinCircle = 29.5 }));
    }

    [Theory]
    [InlineData(31.8, ClearanceState.Free)]
    [InlineData(31.81, ClearanceState.Tight)]
    [InlineData(32, ClearanceState.Tight)]
    [InlineData(32.01, ClearanceState.Fouls)]
    public void Room_is_free_tight_or_none(double outside, ClearanceState state) =>
        Assert.Equal(state, At(ClearancePlace.Recess, Good with { OuterDiameter = outside }).State);

    /// <summary>Loose from two fifths of the notch: 2 × 0.6 = 1.2 wide is still good.</summary>
    [Theory]
    [InlineData(1.2, ClearanceState.Free)]
    [InlineData(1.19, ClearanceState.Loose)]
    [InlineData(1.96, ClearanceState.Tight)]
    public void A_thin_pin_is_loose_in_its_notch(double width, ClearanceState state) =>
        Assert.Equal(state, At(ClearancePlace.PinWidth, Good with { PinWidth = width }).State);

    [Fact]
    public void Doing_as_advised_makes_it_fit()
    {
        var bought = new RingSpanner(33, 24.5, 3, 28.6, 2.4, 1.5);
        for (var step = 0; step < 10 && new RingSpannerFit(bought, Mount).Clearances.FirstOrDefault(one => one.Correction is not null)?.Correction is { } advice; step++)
        {
            bought = advice.Measure switch
            {
                SpannerMeasure.OuterDiameter => bought with { OuterDiameter = advice.To },
                SpannerMeasure.InnerDiameter => bought with { InnerDiameter = advice.To },
                SpannerMeasure.Depth => bought with { Depth = advice.To },
                SpannerMeasure.PinCircle => bought with { PinCircle = advice.To },
                SpannerMeasure.PinWidth => bought with { PinWidth = advice.To },
                SpannerMeasure.PinHeight => bought with { PinHeight = advice.To },
                _ => bought with { CutAwayWidth = advice.To },
            };
        }

        Assert.Equal(ClearanceState.Free, new RingSpannerFit(bought, Mount).Verdict);
    }

    /// <summary>Recess 32 and rear group 31: (31.8 − 31.2)/2 = 0.3 mm of wall is left, below 0.8.</summary>
    [Fact]
    public void Where_no_tube_can_stand_it_says_so() =>
        Assert.False(new RingSpannerFit(Good, Mount with { RearGroupDiameter = 31 }).CanBeMade);

    [Fact]
    public void What_was_not_measured_is_not_judged()
    {
        var fit = new RingSpannerFit(Good, Mount with { RearGroupDiameter = null, RearGroupHeight = null, GateWidth = null, GateHeight = null });
        Assert.Equal(
            [ClearancePlace.Recess, ClearancePlace.Reach, ClearancePlace.PinCircle, ClearancePlace.PinWidth, ClearancePlace.PinHeight, ClearancePlace.PinsOnTube, ClearancePlace.Wall],
            fit.Clearances.Select(one => one.Place));
    }

    /// <summary>Four pins: the second stands at 28.5/2 = 14.25 across, beyond 23.5/2 = 11.75.</summary>
    [Fact]
    public void Pins_round_the_narrow_way_are_cut_off_with_it()
    {
        var four = At(ClearancePlace.PinsOnTube, Good with { Pins = 4 });
        Assert.Equal((-2.5, ClearanceState.Fouls), (Math.Round(four.Room, 9), four.State));
        Assert.Equal(ClearanceState.Free, At(ClearancePlace.PinsOnTube, Good with { Pins = 4, CutAwayWidth = null }).State);
    }

    [Fact]
    public void Inches_are_25_point_4_millimetres()
    {
        Assert.Equal(31.75, Length.ToMillimetres(1.25, LengthUnit.Inch), 1e-12);
        Assert.Equal(1.25, Length.FromMillimetres(31.75, LengthUnit.Inch), 1e-12);
        Assert.Equal(31.75, Length.ToMillimetres(31.75, LengthUnit.Millimetre));
    }

    [Fact]
    public void Impossible_tubes_are_misuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>("InnerDiameter", () => new RingSpannerFit(Good with { InnerDiameter = 32 }, Mount));
        Assert.Throws<ArgumentOutOfRangeException>("CutAwayWidth", () => new RingSpannerFit(Good with { CutAwayWidth = 40 }, Mount));
        Assert.Throws<ArgumentOutOfRangeException>("Pins", () => new RingSpannerFit(Good with { Pins = 0 }, Mount));
        Assert.Throws<ArgumentOutOfRangeException>("NotchWidth", () => new RingSpannerFit(Good, Mount with { NotchWidth = double.NaN }));
        Assert.Throws<ArgumentOutOfRangeException>("RecessDepth", () => new RingSpannerFit(Good, Mount with { RecessDepth = -1 }));
    }

    private static void Same(Clearance expected, Clearance actual)
    {
        Assert.Equal((expected.Place, expected.State, expected.Correction!.Measure), (actual.Place, actual.State, actual.Correction!.Measure));
        Assert.Equal(expected.Room, actual.Room, 1e-9);
        Assert.Equal(expected.Wanted, actual.Wanted, 1e-9);
        Assert.Equal(expected.Correction.By, actual.Correction.By, 1e-9);
        Assert.Equal(expected.Correction.To, actual.Correction.To, 1e-9);
    }
}
