using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Gauges;
using Xunit;

namespace RepairShop.Measurement.Tests.Gauges;

public class PlainGaugesTests
{
    /// <summary>8 to 12 s: common practice.</summary>
    [Theory]
    [InlineData(7.99, Verdict.Outside)]
    [InlineData(8, Verdict.Within)]
    [InlineData(12, Verdict.Within)]
    [InlineData(12.01, Verdict.Outside)]
    public void A_self_timer_runs_about_ten_seconds(double seconds, Verdict verdict) =>
        Assert.Equal((verdict, "s"), (PlainGauges.SelfTimer(seconds).Verdict, PlainGauges.SelfTimer(seconds).Unit));

    /// <summary>15 to 20 ms: common practice; a class M bulb peaks after 20 ms nominally.</summary>
    [Theory]
    [InlineData(14.9, Verdict.Outside)]
    [InlineData(15, Verdict.Within)]
    [InlineData(20, Verdict.Within)]
    [InlineData(20.1, Verdict.Outside)]
    [InlineData(-1, Verdict.Outside)]
    public void An_M_contact_closes_well_before_the_blades_are_open(double milliseconds, Verdict verdict) =>
        Assert.Equal(verdict, PlainGauges.ContactM(milliseconds).Verdict);

    [Theory]
    [InlineData(-0.1, null, Verdict.Outside)]
    [InlineData(0, null, Verdict.Within)]
    [InlineData(3, null, Verdict.Within)]
    [InlineData(3, 2.5, Verdict.Outside)]
    [InlineData(2.5, 2.5, Verdict.Within)]
    public void An_X_contact_closes_while_the_blades_are_fully_open(double milliseconds, double? rest, Verdict verdict) =>
        Assert.Equal(verdict, PlainGauges.ContactX(milliseconds, rest).Verdict);

    /// <summary>A stop is half the area, so the diameter goes down by √2: 20 mm at f/2.8 is 10 mm at f/5.6 and 5 mm at f/11.</summary>
    [Theory]
    [InlineData(10, 5.6, 0)]
    [InlineData(5, 11, 0)]
    [InlineData(14.1421356, 4, 0)]
    [InlineData(7.0710678, 5.6, 1)]
    [InlineData(20, 4, -1)]
    public void An_iris_is_off_by_the_stops_its_area_is_off(double diameter, double mark, double stops) =>
        Assert.Equal(stops, PlainGauges.IrisErrorStops(20, 2.8, diameter, mark), 1e-6);

    [Fact]
    public void Areas_go_with_the_square() => Assert.Equal(4, PlainGauges.AreaRatio(20, 10));

    [Fact]
    public void Nonsense_is_misuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PlainGauges.SelfTimer(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => PlainGauges.ContactX(1, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => PlainGauges.IrisErrorStops(20, 2.8, double.NaN, 4));
        Assert.Throws<ArgumentOutOfRangeException>(() => PlainGauges.AreaRatio(1, 0));
    }
}
