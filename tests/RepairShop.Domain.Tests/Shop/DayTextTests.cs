using System.Globalization;
using RepairShop.Domain.Shop;
using Xunit;

namespace RepairShop.Domain.Tests.Shop;

/// <summary>Patterns are those of the runtime's Unicode locale data (CLDR); the calendar of papers is the Gregorian one (common practice).</summary>
public class DayTextTests
{
    private static readonly DateOnly Day = new(2026, 11, 24);

    [Theory]
    [InlineData("en-GB", "24 November 2026")]
    [InlineData("en-US", "November 24, 2026")]
    [InlineData("de-DE", "24. November 2026")]
    [InlineData("ja-JP", "2026年11月24日")]
    public void A_day_has_the_order_of_its_locale_and_no_weekday(string locale, string written) =>
        Assert.Equal(written, DayText.WriteIn(CultureInfo.GetCultureInfo(locale), Day));

    [Fact]
    public void No_locale_leaves_a_weekday_or_a_stray_mark()
    {
        foreach (var culture in CultureInfo.GetCultures(CultureTypes.SpecificCultures).Select(DayText.Gregorian))
        {
            var written = DayText.WriteIn(culture, Day);
            Assert.Contains("2026", Figures(written));
            Assert.Contains("24", Figures(written));
            Assert.DoesNotContain(culture.DateTimeFormat.GetDayName(DayOfWeek.Tuesday), written, StringComparison.CurrentCultureIgnoreCase);
            Assert.DoesNotContain("  ", written);
            Assert.Equal(written.Trim(' ', ','), written);
        }
    }

    [Theory]
    [InlineData("th-TH")]
    [InlineData("fa-IR")]
    [InlineData("ar-SA")]
    public void Where_another_calendar_comes_first_the_year_is_the_Gregorian_one(string locale)
    {
        var own = CultureInfo.GetCultureInfo(locale);
        Assert.IsNotType<GregorianCalendar>(own.Calendar);
        Assert.Contains("2026", Figures(DayText.WriteIn(DayText.Gregorian(own), Day)));
    }

    /// <summary>Digits of any script as 0 to 9.</summary>
    private static string Figures(string written) =>
        string.Concat(written.Select(letter => char.GetNumericValue(letter) is >= 0 and var value ? value.ToString(CultureInfo.InvariantCulture) : letter.ToString()));
}
