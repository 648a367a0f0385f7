using System.Globalization;
using FsCheck;
using FsCheck.Fluent;
using RepairShop.Measurement.ShutterTests;
using Xunit;

namespace RepairShop.Measurement.Tests.ShutterTests;

public class TimeTextTests
{
    private static readonly CultureInfo[] Cultures =
        [.. new[] { "en-GB", "en-US", "de-DE", "fr-FR", "sv-SE", "tr-TR", "ja-JP", "ar-EG", "fa-IR", "hi-IN" }.Select(CultureInfo.GetCultureInfo), CultureInfo.InvariantCulture];

    [Theory]
    [InlineData(1, "1 s", "1 s", "1000 ms")]
    [InlineData(1.024, "1.02 s", "1,02 s", "1024 ms")]
    [InlineData(12.34, "12.3 s", "12,3 s", "12340 ms")]
    [InlineData(0.5, "½", "½", "500 ms")]
    [InlineData(0.25, "¼", "¼", "250 ms")]
    [InlineData(0.125, "⅛", "⅛", "125 ms")]
    [InlineData(0.512, "0.512 s", "0,512 s", "512 ms")]
    [InlineData(0.2, "1/5", "1/5", "200 ms")]
    [InlineData(0.28, "1/3.6", "1/3,6", "280 ms")]
    [InlineData(0.008, "1/125", "1/125", "8 ms")]
    [InlineData(0.0078125, "1/128", "1/128", "7.813 ms")]
    [InlineData(0.0005, "1/2000", "1/2000", "0.5 ms")]
    [InlineData(0.00048828125, "1/2048", "1/2048", "0.4883 ms")]
    public void A_time_is_written_as_photographers_do_with_milliseconds_beside(double seconds, string english, string german, string milliseconds)
    {
        Assert.Equal(english, TimeText.Photographic(seconds, CultureInfo.InvariantCulture));
        Assert.Equal(german, TimeText.Photographic(seconds, CultureInfo.GetCultureInfo("de-DE")));
        Assert.Equal(milliseconds, TimeText.Milliseconds(seconds, CultureInfo.InvariantCulture));
        Assert.Equal($"{english} ({milliseconds})", TimeText.Full(seconds, CultureInfo.InvariantCulture));
    }

    [Fact]
    public void German_milliseconds_have_a_comma() =>
        Assert.Equal("7,813 ms", TimeText.Milliseconds(0.0078125, CultureInfo.GetCultureInfo("de-DE")));

    [Fact]
    public void Milliseconds_written_in_any_culture_read_back_to_their_four_digits() =>
        Prop.ForAll(Times, seconds => Cultures.All(culture =>
            ReadingText.Parse(TimeText.Milliseconds(seconds, culture), culture).Reading is { } read && Math.Abs(read.Seconds / seconds - 1) <= 5.001e-4))
            .Check(Config.QuickThrowOnFailure.WithMaxTest(500));

    [Fact]
    public void A_photographers_way_written_in_any_culture_reads_back_within_two_and_a_half_percent() =>
        Prop.ForAll(Times, seconds => Cultures.All(culture =>
            ReadingText.Parse(TimeText.Photographic(seconds, culture), culture).Reading is { } read && Math.Abs(read.Seconds / seconds - 1) <= 0.0251))
            .Check(Config.QuickThrowOnFailure.WithMaxTest(500));

    [Fact]
    public void Marks_written_in_any_culture_read_back_exactly()
    {
        foreach (var seconds in SpeedSeries.All.SelectMany(s => s.Marks).Select(m => m.LiteralSeconds).OfType<double>())
            foreach (var culture in Cultures)
                Assert.Equal(seconds, ReadingText.Parse(TimeText.Photographic(seconds, culture), culture).Reading!.Seconds, 1e-15);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Impossible_times_are_misuse(double seconds)
    {
        Assert.Throws<ArgumentOutOfRangeException>(nameof(seconds), () => TimeText.Photographic(seconds, CultureInfo.InvariantCulture));
        Assert.Throws<ArgumentOutOfRangeException>(() => TimeText.Milliseconds(seconds, CultureInfo.InvariantCulture));
    }

    /// <summary>11 µs to one hour, evenly in stops.</summary>
    private static Arbitrary<double> Times =>
        Arb.From(Gen.Choose(0, 1_000_000).Select(i => 11e-6 * Math.Pow(3599 / 11e-6, i / 1e6)));
}
