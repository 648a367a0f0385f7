using RepairShop.Domain.Labour;
using Xunit;

namespace RepairShop.Domain.Tests.Labour;

public class LengthTextTests
{
    [Theory]
    [InlineData("1:30", 90)]
    [InlineData("0:01", 1)]
    [InlineData("24:00", 1440)]
    [InlineData("1h30", 90)]
    [InlineData("1 h 30 min", 90)]
    [InlineData("1h 5m", 65)]
    [InlineData("1.5 h", 90)]
    [InlineData("1,5", 90)]
    [InlineData(",5 h", 30)]
    [InlineData("2", 120)]
    [InlineData("90 min", 90)]
    [InlineData("90min.", 90)]
    [InlineData("45 minutes", 45)]
    [InlineData("2 hours", 120)]
    [InlineData("  0.25  ", 15)]
    [InlineData("24", 1440)]
    public void Lengths_are_read_as_people_write_them(string text, int minutes) =>
        Assert.Equal(minutes, LengthText.Read(text).Value);

    [Theory]
    [InlineData("0.3333 h", 20)] // 19.998 min
    [InlineData("0.5 min", 1)]
    [InlineData("1.4 min", 1)]
    [InlineData("2.5 min", 3)]
    public void Parts_of_a_minute_are_rounded_half_up(string text, int minutes) =>
        Assert.Equal(minutes, LengthText.Read(text).Value);

    [Theory]
    [InlineData("abc")]
    [InlineData("1/0")]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData(null)]
    [InlineData("1:60")]
    [InlineData("1.30:20")]
    [InlineData(".")]
    [InlineData("h")]
    [InlineData("1 2")]
    [InlineData("NaN")]
    [InlineData("1e3")]
    [InlineData("'; drop table labour_entries; --")]
    public void What_is_no_length_is_refused(string? text) =>
        Assert.IsType<LengthNotRead>(LengthText.Read(text).Failure);

    [Theory]
    [InlineData("-1")]
    [InlineData("-1:30")]
    [InlineData("−90 min")]
    [InlineData("–0.5 h")]
    public void Negative_hours_are_named_as_such(string text) =>
        Assert.Equal(new LengthNegative("Length", text), LengthText.Read(text).Failure);

    [Theory]
    [InlineData("0")]
    [InlineData("0:00")]
    [InlineData("0.4 min")]
    public void No_time_at_all_is_refused(string text) =>
        Assert.Equal(new LengthZero("Length", text), LengthText.Read(text).Failure);

    [Theory]
    [InlineData("24:01")]
    [InlineData("90")]
    [InlineData("1441 min")]
    [InlineData("999999 h")]
    public void More_than_a_day_is_refused(string text) =>
        Assert.Equal(new LengthOverADay("Length", text), LengthText.Read(text).Failure);

    [Fact]
    public void A_long_text_is_cut_in_the_sentence() =>
        Assert.True(LengthText.Read(new string('x', 5000)).Failure!.Message.Length < 200);

    [Theory]
    [InlineData(5, "5 min")]
    [InlineData(60, "1 h")]
    [InlineData(65, "1 h 05 min")]
    [InlineData(1440, "24 h")]
    public void Lengths_are_written_in_hours_and_minutes(int minutes, string text) =>
        Assert.Equal(text, LengthText.Write(minutes));

    [Fact]
    public void Every_written_length_of_a_day_reads_back()
    {
        for (var minutes = 1; minutes <= LengthText.LongestMinutes; minutes++)
            Assert.Equal(minutes, LengthText.Read(LengthText.Write(minutes)).Value);
    }
}
