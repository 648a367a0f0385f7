using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Gauges;
using Xunit;

namespace RepairShop.Measurement.Tests.Gauges;

/// <summary>The places two, three and four are common practice; half way between two of them is arithmetic.</summary>
public class SpringAtRestTests
{
    [Theory]
    [InlineData("2", SpringState.AsNew)]
    [InlineData("1:31", SpringState.AsNew)]
    [InlineData("2:29", SpringState.AsNew)]
    [InlineData("2:30", SpringState.Serviceable)]
    [InlineData("3", SpringState.Serviceable)]
    [InlineData("3:29", SpringState.Serviceable)]
    [InlineData("3:30", SpringState.Tired)]
    [InlineData("4", SpringState.Tired)]
    [InlineData("7", SpringState.Tired)]
    [InlineData("7:01", SpringState.Unlikely)]
    [InlineData("1:29", SpringState.Unlikely)]
    [InlineData("12", SpringState.Unlikely)]
    public void Where_the_end_stands_says_how_the_spring_is(string place, SpringState state) =>
        Assert.Equal(state, SpringAtRest.StateOf(ClockPosition.Read(place)!));

    [Theory]
    [InlineData("3:29", Verdict.Within)]
    [InlineData("3:30", Verdict.Within)]
    [InlineData("3:31", Verdict.Outside)]
    public void As_a_gauge_it_is_within_up_to_half_past_three(string place, Verdict verdict)
    {
        var gauge = SpringAtRest.GaugeOf(ClockPosition.Read(place)!);
        Assert.Equal((verdict, "o'clock", 3.5), (gauge.Verdict, gauge.Unit, gauge.High));
    }

    [Fact]
    public void A_notebook_may_name_its_own_places()
    {
        var places = new SpringPlaces(3, 4.5, 6);
        Assert.Equal(SpringState.AsNew, SpringAtRest.StateOf(ClockPosition.FromHours(3.7), places));
        Assert.Equal(SpringState.Serviceable, SpringAtRest.StateOf(ClockPosition.FromHours(5), places));
        Assert.Equal(SpringState.Tired, SpringAtRest.StateOf(ClockPosition.FromHours(5.25), places));
    }

    [Fact]
    public void Places_out_of_order_are_misuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>("serviceable", () => new SpringPlaces(3, 3, 4));
        Assert.Throws<ArgumentOutOfRangeException>("tired", () => new SpringPlaces(2, 3, 13));
        Assert.Throws<ArgumentOutOfRangeException>("asNew", () => new SpringPlaces(double.NaN, 3, 4));
    }

    public class AClockPosition
    {
        [Theory]
        [InlineData("12", 0, "12:00")]
        [InlineData("0", 0, "12:00")]
        [InlineData("3", 90, "3:00")]
        [InlineData("2:30", 75, "2:30")]
        [InlineData("2,5", 75, "2:30")]
        [InlineData(" 2.5 ", 75, "2:30")]
        [InlineData("12:30", 15, "12:30")]
        [InlineData("11:59", 359.5, "11:59")]
        public void Is_read_as_it_is_said(string text, double degrees, string said)
        {
            var place = ClockPosition.Read(text)!;
            Assert.Equal(degrees, place.Degrees, 1e-9);
            Assert.Equal(said, place.ToString());
        }

        [Theory]
        [InlineData("")]
        [InlineData(null)]
        [InlineData("13")]
        [InlineData("2:60")]
        [InlineData("2:5")]
        [InlineData("-1")]
        [InlineData("noon")]
        [InlineData("2:30:00")]
        [InlineData("99999999999:00")]
        public void Is_not_read_from_anything_else(string? text) => Assert.Null(ClockPosition.Read(text));

        [Theory]
        [InlineData(90, 3)]
        [InlineData(-90, 9)]
        [InlineData(450, 3)]
        [InlineData(360, 0)]
        [InlineData(-1e-15, 0)]
        public void Comes_from_any_angle(double degrees, double hours) =>
            Assert.Equal(hours, ClockPosition.FromDegrees(degrees).Hours, 1e-9);

        [Fact]
        public void Of_a_spring_wound_the_other_way_is_seen_in_a_mirror()
        {
            Assert.Equal(2, ClockPosition.FromHours(10).Mirrored.Hours);
            Assert.Equal(0, ClockPosition.FromHours(12).Mirrored.Hours);
        }

        [Fact]
        public void Off_the_face_is_misuse()
        {
            Assert.Throws<ArgumentOutOfRangeException>("hours", () => ClockPosition.FromHours(12.1));
            Assert.Throws<ArgumentOutOfRangeException>("hours", () => ClockPosition.FromHours(double.NaN));
            Assert.Throws<ArgumentOutOfRangeException>("degrees", () => ClockPosition.FromDegrees(double.PositiveInfinity));
        }
    }
}
