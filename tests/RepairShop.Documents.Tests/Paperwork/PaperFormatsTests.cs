using System.Globalization;
using RepairShop.Documents.Paperwork;

namespace RepairShop.Documents.Tests.Paperwork;

public class PaperFormatsTests
{
    [Theory]
    [InlineData("en-IE", "EUR", "€1,234.50")]
    [InlineData("de-DE", "EUR", "1.234,50 €")]
    [InlineData("ja-JP", "JPY", "￥1,235")]
    [InlineData("en-GB", "USD", "US$1,234.50")]
    [InlineData("de-CH", "CHF", "CHF 1’234.50")]
    [InlineData("en-US", "KWD", "KWD 1,234.500")]
    public void Money_has_the_currencys_digits_and_the_locales_signs(string locale, string currency, string expected)
    {
        var formats = new PaperFormats(Sample.Shop with { Locale = locale }, currency);
        Assert.Equal(expected, formats.Money(1234.5m).Replace('\u00A0', ' '));
    }

    [Theory]
    [InlineData("en-IE", "24 November 2026")]
    [InlineData("de-DE", "24. November 2026")]
    [InlineData("ja-JP", "2026年11月24日")]
    [InlineData("en-US", "November 24, 2026")]
    [InlineData("pt-BR", "24 de novembro de 2026")]
    [InlineData("fa-IR", "2026 نوامبر 24")]
    public void Dates_are_written_in_the_locale_in_the_Gregorian_calendar(string locale, string expected) =>
        Assert.Equal(expected, new PaperFormats(Sample.Shop with { Locale = locale }, "EUR").Day(new DateOnly(2026, 11, 24)));

    [Theory]
    [InlineData(0.010057620, 0.000027, "10.058", "0.027")]
    [InlineData(1.438, 0.03971, "1,438", "40")]
    [InlineData(0.00801, 0.0000104700, "8.010", "0.011")]
    public void A_time_has_the_decimals_of_its_uncertainty_and_that_is_rounded_up(double seconds, double uncertainty, string time, string plusMinus)
    {
        // JCGM 100:2008, 7.2.6: 10.05762 Ω with 27 mΩ is 10.058 Ω; 10.47 is rounded up to 11.
        var formats = new PaperFormats(Sample.Shop, "EUR");
        Assert.Equal(time, formats.Milliseconds(seconds, uncertainty));
        Assert.Equal(plusMinus, formats.UncertaintyMilliseconds(uncertainty));
    }

    [Fact]
    public void Figures_of_a_column_stand_on_their_point()
    {
        var composer = new Composer(new Documents.Text.Shaper(), new PaperFormats(Sample.Shop, "EUR"));
        Assert.Equal(["3.25", "1.5\u2007", "1\u2008\u2007\u2007", "–\u2008\u2007\u2007"], composer.OnThePoint(["3.25", "1.5", "1", "–"]));
        Assert.Equal(["3", "12"], composer.OnThePoint(["3", "12"]));
        Assert.Equal(CultureInfo.GetCultureInfo("en-IE"), composer.Formats.Culture);
    }
}
