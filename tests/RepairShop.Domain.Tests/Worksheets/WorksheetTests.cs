using System.Globalization;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Worksheets;
using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Gauges;
using RepairShop.Measurement.Tools;
using Xunit;

namespace RepairShop.Domain.Tests.Worksheets;

public class WorksheetTests
{
    public WorksheetTests() => CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("en-IE");

    public class OfASpring
    {
        private static SpringTyped At(string place, bool anticlockwise = false) => new(place, anticlockwise, "", "", "");

        [Theory]
        [InlineData("2:10", false, SpringState.AsNew, Condition.Sound)]
        [InlineData("4:00", false, SpringState.Tired, Condition.Worn)]
        [InlineData("8:00", true, SpringState.Tired, Condition.Worn)]
        public void Empty_places_are_common_practice(string place, bool anticlockwise, SpringState state, Condition condition)
        {
            var worked = SpringSheet.Work(At(place, anticlockwise)).Value!;
            Assert.Equal((state, condition), (worked.State, worked.Finding.Condition));
        }

        [Fact]
        public void An_unlikely_place_is_not_judged() =>
            Assert.Equal(Verdict.NotJudged, SpringSheet.Work(At("11:00")).Value!.Finding.Gauge.Verdict);

        [Fact]
        public void What_cannot_be_read_is_said_at_its_field()
        {
            Assert.Equal(new SheetValueMissing("Place", "Where the end rests"), SpringSheet.Work(At(" ")).Failure);
            Assert.Equal(new ClockPlaceNotRead("Place", "noon"), SpringSheet.Work(At("noon")).Failure);
            Assert.Equal(new SpringPlacesOutOfOrder(), SpringSheet.Work(new("3", false, "4", "3", "2")).Failure);
        }
    }

    public class OfARegister
    {
        private static readonly FocusTyped Typed = new(LengthUnit.Millimetre, 45.51, 45.46, 0.12, 50, 2, 0.03, 1);

        [Fact]
        public void The_sentence_says_what_to_do_with_the_shims()
        {
            var worked = FocusSheet.Work(Typed).Value!;
            Assert.Equal("Measured 45.51 mm, nominal 45.46 mm: take out 0.05 mm of shim. Limit ±0.06 mm, half the depth of focus of 50 mm at f/2.", worked.Finding.Text);
            Assert.Equal(Verdict.Within, worked.Finding.Gauge.Verdict);
            Assert.Equal(0.07, worked.Register.ShimsAfter!.Value, 1e-9);
        }

        [Fact]
        public void Inches_give_the_same_figures()
        {
            var inches = FocusSheet.Work(Typed with { Unit = LengthUnit.Inch, Measured = 45.51 / 25.4, Nominal = 45.46 / 25.4, Shims = null }).Value!;
            Assert.Equal(0.05, inches.Register.Error, 1e-9);
            Assert.Equal("mm", inches.Finding.Gauge.Unit);
        }

        /// <summary>
        /// Set to 1 m from the film: u = (1000 + √(1000² − 4·50·1000))/2 = 947.214, extension 2500/897.214 = 2.786; 0.05 mm more focuses
        /// 50 + 2500/2.836 = 931.40, that is 931.40 + 50 + 2.836 = 984.23 mm from the film.
        /// </summary>
        [Fact]
        public void Where_focus_falls_is_told_from_the_film() => Assert.Equal(984.23, FocusSheet.Work(Typed).Value!.FallsAt!.Value, 0.01);

        [Fact]
        public void Missing_and_impossible_values_are_named()
        {
            Assert.Equal(new SheetValueMissing("Measured", "Measured register"), FocusSheet.Work(Typed with { Measured = null }).Failure);
            Assert.IsType<SheetValueOutOfRange>(FocusSheet.Work(Typed with { FNumber = 0 }).Failure);
            Assert.IsType<SheetValueOutOfRange>(FocusSheet.Work(Typed with { SetMetres = 0.19 }).Failure);
            Assert.IsType<SheetValueOutOfRange>(FocusSheet.Work(Typed with { Nominal = double.NaN }).Failure);
        }
    }

    public class OfARangefinder
    {
        private static RangefinderTyped Typed(params RangefinderLine[] lines) => new(DistanceUnit.Metre, 50, 2, 0.03, 40, 0.75, lines);

        [Fact]
        public void The_line_furthest_beyond_its_limit_becomes_the_finding()
        {
            var worked = RangefinderSheet.Work(Typed(new RangefinderLine(double.PositiveInfinity, 30), new(null, null), new(1, 1.002))).Value!;
            Assert.Equal(2, worked.Points.Count);
            Assert.Equal("Focus error at the film, target ∞", worked.Finding.GaugeName);
            Assert.Equal((Verdict.Outside, Condition.Worn), (worked.Finding.Gauge.Verdict, worked.Finding.Condition));
            Assert.Null(worked.Points[0].EyeCanTell);
            // 5·10⁻⁵ · 1000² / 30 mm = 1.667 mm (W. J. Smith).
            Assert.Equal(0.0016667, worked.Points[1].EyeCanTell!.Value, 1e-6);
        }

        [Fact]
        public void Feet_are_304_point_8_millimetres()
        {
            var metres = RangefinderSheet.Work(Typed(new RangefinderLine(3.048, 3.2))).Value!.Points[0].AtFilm.Value;
            var feet = RangefinderSheet.Work(Typed(new RangefinderLine(10, 3.2 / 0.3048)) with { Unit = DistanceUnit.Foot }).Value!.Points[0].AtFilm.Value;
            Assert.Equal(metres, feet, 1e-6);
        }

        [Fact]
        public void Half_a_line_or_none_is_refused()
        {
            Assert.Equal(new NothingRead(), RangefinderSheet.Work(Typed(new RangefinderLine(null, null))).Failure);
            Assert.Equal(new ReadingHalfGiven("Lines[1].Shown", "Target and what the scale shows"), RangefinderSheet.Work(Typed(new(3, 3), new(1, null))).Failure);
            Assert.IsType<SheetValueOutOfRange>(RangefinderSheet.Work(Typed(new RangefinderLine(0.19, 1))).Failure);
        }
    }

    public class OfAMeter
    {
        private static MeterTyped Typed(MeterLight light, params MeterLine[] lines) => new(light, 100, null, 0.5, lines);

        [Fact]
        public void Luminance_is_held_against_K_and_the_worst_point_becomes_the_finding()
        {
            var worked = MeterSheet.Work(Typed(MeterLight.Luminance, new(4096, "16 1/60"), new(32, "8"), new(512, "12,2"))).Value!;
            Assert.Equal([8, 12, 15], worked.Check.Points.Select(point => Math.Round(point.Light, 9)));
            Assert.Equal(-1, worked.Finding.Gauge.Value, 1e-9);
            Assert.Equal(Verdict.Outside, worked.Finding.Gauge.Verdict);
            Assert.StartsWith("ISO 100, K 12.5 cd·s/m². EV 8.0 read 8.0; EV 12.0 read 12.2; EV 15.0 read 14.0.", worked.Finding.Text);
        }

        [Theory]
        [InlineData("12.3", 12.3)]
        [InlineData("EV 12,3", 12.3)]
        [InlineData("8 1/125", 13.0)]
        [InlineData("f/5.6 1/500", 14.0)]
        [InlineData("−2", -2.0)]
        [InlineData("40", null)]
        [InlineData("8 125", null)]
        [InlineData("8 B", null)]
        [InlineData("", null)]
        [InlineData("bright", null)]
        public void A_reading_is_an_EV_or_aperture_and_speed(string text, double? value)
        {
            var read = MeterSheet.ReadingValue(text);
            Assert.Equal(value, read is { } found ? Math.Round(found, 9) : null);
        }

        [Fact]
        public void What_is_wrong_is_said_at_its_line()
        {
            Assert.Equal(new NothingRead(), MeterSheet.Work(Typed(MeterLight.ExposureValue, new MeterLine(null, ""))).Failure);
            Assert.Equal("Lines[0].Reading", Assert.IsType<MeterReadingNotRead>(MeterSheet.Work(Typed(MeterLight.ExposureValue, new MeterLine(8, "x"))).Failure).Field);
            Assert.Equal("Lines[0].Light", Assert.IsType<ReadingHalfGiven>(MeterSheet.Work(Typed(MeterLight.ExposureValue, new MeterLine(null, "8"))).Failure).Field);
            Assert.Equal("Lines[0].Light", Assert.IsType<SheetValueOutOfRange>(MeterSheet.Work(Typed(MeterLight.Illuminance, new MeterLine(0, "8"))).Failure).Field);
        }
    }

    public class OfACoupling
    {
        private static CouplingTyped Typed(params CouplingLine[] lines) => new(13, "1/60 1/125 1/250 1/500", "2.8 4 5.6 8 11 16", 0.25, lines);

        [Fact]
        public void Before_anything_is_seen_there_is_a_table_and_no_finding()
        {
            var worked = CouplingSheet.Work(Typed()).Value!;
            Assert.Equal([11, 8, 5.6, 4], worked.Points.Select(point => point.Pair.Mark!.Value));
            Assert.Null(worked.Finding);
        }

        [Fact]
        public void Ticked_pairs_hold_and_the_one_read_otherwise_is_off()
        {
            var worked = CouplingSheet.Work(Typed(new("1/125", true, null), new("1/500", false, 5.6))).Value!;
            Assert.Equal((1.0, Verdict.Outside), (worked.Finding!.Gauge.Value, worked.Finding.Gauge.Verdict));
            Assert.Equal("Coupled at EV 13: 2 of 4 pairs looked at, 1 hold; 1/500 stands at f/5.6 for f/4 (+1.00 stop).", worked.Finding.Text);
        }

        [Fact]
        public void What_cannot_be_read_is_said_at_its_field()
        {
            Assert.Equal("Value", Assert.IsType<SheetValueMissing>(CouplingSheet.Work(Typed() with { Value = null }).Failure).Field);
            Assert.Equal(new SpeedNotRead("Speeds", "fast"), CouplingSheet.Work(Typed() with { Speeds = "fast" }).Failure);
            Assert.Equal(new ApertureNotRead("Apertures", "wide"), CouplingSheet.Work(Typed() with { Apertures = "8 wide" }).Failure);
            Assert.Equal(new NoPairHolds("2"), CouplingSheet.Work(Typed() with { Value = 2 }).Failure);
            Assert.Equal("Lines[0].Read", Assert.IsType<SheetValueOutOfRange>(CouplingSheet.Work(Typed(new CouplingLine("1/125", false, 0))).Failure).Field);
        }
    }

    public class OfAFlash
    {
        [Fact]
        public void The_wait_is_computed_from_what_is_written_on_the_can() =>
            Assert.Equal(6.959, FlashSheet.Work(new(120, 330, 10_000, 1)).Value!.WaitSeconds, 5e-4);

        [Fact]
        public void Nothing_is_guessed()
        {
            Assert.Equal(new SheetValueMissing("Microfarads", "Capacity"), FlashSheet.Work(new(null, 330, 10_000, 1)).Failure);
            Assert.IsType<SheetValueOutOfRange>(FlashSheet.Work(new(120, 330, 0, 1)).Failure);
        }
    }
}
