using System.Globalization;
using RepairShop.Web.Forms;
using Xunit;

namespace RepairShop.Web.Tests.Forms;

public class NumberTextTests
{
    [Theory]
    [InlineData("1,5", 1.5)]
    [InlineData("1.5", 1.5)]
    [InlineData(" 12 ", 12)]
    [InlineData("0", 0)]
    [InlineData(",5", 0.5)]
    [InlineData(".25", 0.25)]
    [InlineData("-3", -3)]
    [InlineData("−3,2", -3.2)]
    [InlineData("+7", 7)]
    [InlineData("1 234,50", 1234.5)]
    [InlineData("1\u202f234.50", 1234.5)]
    [InlineData("1’234.50", 1234.5)]
    [InlineData("1.234,50", 1234.5)]
    [InlineData("1,234.50", 1234.5)]
    [InlineData("1,234,567", 1234567)]
    [InlineData("0,125", 0.125)]
    [InlineData("1234,567", 1234.567)]
    public void Comma_and_point_are_both_understood_in_every_locale(string text, double expected)
    {
        foreach (var locale in new[] { "en-GB", "de-DE", "fr-FR", "de-CH" })
            Assert.Equal(new NumberReading((decimal)expected, null), NumberText.Read(text, CultureInfo.GetCultureInfo(locale)));
    }

    [Theory]
    [InlineData("1.234", "en-GB", 1.234)]
    [InlineData("1,234", "de-DE", 1.234)]
    public void The_shops_own_decimal_mark_is_never_doubtful(string text, string locale, double expected) =>
        Assert.Equal((decimal)expected, NumberText.Read(text, CultureInfo.GetCultureInfo(locale)).Value);

    [Theory]
    [InlineData("1000000000000")]
    [InlineData("-99999999999999999999")]
    [InlineData("99999999999999999999999999999999")]
    public void What_no_field_is_for_is_too_large(string text) =>
        Assert.Equal(new NumberReading(null, $"“{text}” is too large a number."), NumberText.Read(text, CultureInfo.GetCultureInfo("en-GB")));

    [Theory]
    [InlineData("1,234", "en-GB", "“1,234” can be read two ways: write 1234 or 1.234.")]
    [InlineData("12.500", "de-DE", "“12.500” can be read two ways: write 12500 or 12,500.")]
    public void What_can_be_read_two_ways_is_refused(string text, string locale, string sentence) =>
        Assert.Equal(new NumberReading(null, sentence), NumberText.Read(text, CultureInfo.GetCultureInfo(locale)));

    [Theory]
    [InlineData("1,234.5x")]
    [InlineData("abc")]
    [InlineData("1e5")]
    [InlineData("1/2")]
    [InlineData("NaN")]
    [InlineData("∞")]
    [InlineData("1,2,3")]
    [InlineData("1.23.4")]
    [InlineData("--1")]
    [InlineData(",")]
    [InlineData("5,")]
    [InlineData("१२")]
    public void What_is_no_number_is_refused(string text) =>
        Assert.Equal(new NumberReading(null, $"“{text}” is not a number: write it like 12.5."), NumberText.Read(text, CultureInfo.GetCultureInfo("en-GB")));

    [Fact]
    public void A_number_beyond_all_measure_is_refused() =>
        Assert.EndsWith("is too large a number.", NumberText.Read(new string('9', 40), CultureInfo.GetCultureInfo("en-GB")).Refusal);
}
