using RepairShop.Domain.Cameras;
using RepairShop.Measurement.ShutterTests;
using Xunit;

namespace RepairShop.Domain.Tests.Cameras;

public sealed class DialTests
{
    [Theory]
    [InlineData("B 1/500 1/250, 1;1/2", "1 1/2 1/250 1/500 B")]
    [InlineData("1/125 1/125 T B", "1/125 T B")]
    [InlineData("", "")]
    public void A_dial_is_kept_slowest_first_each_mark_once(string typed, string kept) =>
        Assert.Equal(kept, string.Join(' ', CameraRules.Dial(typed).Value!));

    [Theory]
    [InlineData("1/0")]
    [InlineData("abc")]
    [InlineData("1 125")]
    public void An_unreadable_mark_is_named(string typed) => Assert.IsType<MarkedSpeedUnreadable>(CameraRules.Dial(typed).Failure);

    [Fact]
    public void Every_series_offered_is_a_dial_as_it_stands() => Assert.All(SpeedSeries.All, series =>
        Assert.Equal(series.Marks.Select(mark => mark.Text), CameraRules.Dial(string.Join(' ', series.Marks.Select(mark => mark.Text))).Value!));
}
