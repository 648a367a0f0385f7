using FsCheck;
using FsCheck.Fluent;
using RepairShop.Measurement.ShutterTests;
using Xunit;

namespace RepairShop.Measurement.Tests.ShutterTests;

public class StopsTests
{
    /// <summary>Arithmetic of EV error = log2(measured / reference); the band ±0.3 / ±0.45 is the one quoted from JIS B 7091 (ohkin.mydns.jp/archives/69).</summary>
    [Theory]
    [InlineData(0.30, 23.1144, -18.7748)]
    [InlineData(1.0 / 3, 25.9921, -20.6299)]
    [InlineData(0.45, 36.6040, -26.7957)]
    [InlineData(0.50, 41.4214, -29.2893)]
    [InlineData(1, 100, -50)]
    public void A_limit_in_stops_is_an_uneven_band_in_percent(double stops, double percentLong, double percentShort)
    {
        Assert.Equal(percentLong, Stops.ToPercent(stops), 5e-5);
        Assert.Equal(percentShort, Stops.ToPercent(-stops), 5e-5);
    }

    [Theory]
    [InlineData(10, 0.13750, -0.15200)]
    [InlineData(20, 0.26303, -0.32193)]
    [InlineData(25, 0.32193, -0.41504)]
    [InlineData(30, 0.37851, -0.51457)]
    public void A_limit_in_percent_is_an_uneven_band_in_stops(double percent, double stopsLong, double stopsShort)
    {
        Assert.Equal(stopsLong, Stops.FromPercent(percent), 5e-6);
        Assert.Equal(stopsShort, Stops.FromPercent(-percent), 5e-6);
    }

    [Fact]
    public void Longer_is_plus_and_shorter_is_minus()
    {
        Assert.Equal(1, Stops.Error(0.016, 0.008), 1e-15);
        Assert.Equal(-1, Stops.Error(0.004, 0.008), 1e-15);
        Assert.Equal(0, Stops.Error(0.008, 0.008));
    }

    [Fact]
    public void Percent_and_stops_are_each_others_inverse() =>
        Prop.ForAll(Arb.From(Gen.Choose(-8000, 8000).Select(i => i / 1000.0)), stops => Math.Abs(Stops.FromPercent(Stops.ToPercent(stops)) - stops) < 1e-11)
            .QuickCheckThrowOnFailure();

    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 0)]
    [InlineData(-1, 1)]
    [InlineData(double.NaN, 1)]
    [InlineData(1, double.PositiveInfinity)]
    public void An_error_of_impossible_times_is_misuse(double measured, double reference) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Stops.Error(measured, reference));

    [Fact]
    public void Impossible_errors_are_misuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>("percent", () => Stops.FromPercent(-100));
        Assert.Throws<ArgumentOutOfRangeException>("percent", () => Stops.FromPercent(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("percent", () => Stops.FromPercent(double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>("stops", () => Stops.ToPercent(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>("stops", () => Stops.ToPercent(1001));
    }
}
