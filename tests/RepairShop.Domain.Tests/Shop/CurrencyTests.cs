using System.Globalization;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Shop;
using Xunit;

namespace RepairShop.Domain.Tests.Shop;

public class CurrencyTests
{
    [Fact]
    public void Codes_are_three_capitals_and_unique()
    {
        Assert.All(Currency.All, code => Assert.Matches("^[A-Z]{3}$", code));
        Assert.Equal(Currency.All.Count, Currency.All.Distinct().Count());
        Assert.All(Currency.All, code => Assert.NotEmpty(Currency.Name(code)));
        Assert.Equal(Currency.All.Order(StringComparer.Ordinal), Currency.All);
    }

    /// <summary>
    /// Exceptions from two digits in the ISO 4217 list as published in the repository datasets/currency-codes (codes-all.csv), the current
    /// ones among them. That list is older: it still gives UGX two digits, which has been 0 since (from memory).
    /// </summary>
    [Fact]
    public void Minor_units_other_than_two_are_those_of_the_published_list()
    {
        string[] none = ["BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"];
        string[] three = ["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"];
        Assert.Equal(none, Currency.All.Where(code => Currency.MinorUnits(code) == 0));
        Assert.Equal(three, Currency.All.Where(code => Currency.MinorUnits(code) == 3));
        Assert.All(Currency.All.Except(none).Except(three), code => Assert.Equal(2, Currency.MinorUnits(code)));
    }

    /// <summary>
    /// The regions this machine's ICU knows must pay in a listed currency, save those whose money has changed since: each is named with what it was.
    /// </summary>
    [Fact]
    public void Every_region_of_the_machine_pays_in_a_listed_currency()
    {
        string[] replaced = ["ANG", "BGN", "CUC", "HRK", "SLL", "ZWL"];
        var used = CultureInfo.GetCultures(CultureTypes.SpecificCultures)
            .Where(culture => culture.Name.Contains('-'))
            .Select(culture => new RegionInfo(culture.Name))
            .Where(region => region.TwoLetterISORegionName.All(char.IsAsciiLetter))
            .Select(region => region.ISOCurrencySymbol)
            .Where(code => code.Length == 3 && code != "XXX" && !code.Contains('¤', StringComparison.Ordinal))
            .Distinct().ToList();
        Assert.True(used.Count > 100, $"ICU should know more than {used.Count} currencies.");
        var missing = used.Where(code => !Currency.IsKnown(code)).Except(replaced).ToList();
        Assert.Empty(missing);
    }

    [Theory]
    [InlineData("de-DE", "EUR")]
    [InlineData("ja-JP", "JPY")]
    [InlineData("ar-KW", "KWD")]
    [InlineData("en-GB", "GBP")]
    [InlineData("de-CH", "CHF")]
    [InlineData("ko-KR", "KRW")]
    public void Minor_units_agree_with_the_machines_cultures(string culture, string code)
    {
        Assert.Equal(code, new RegionInfo(culture).ISOCurrencySymbol);
        Assert.Equal(CultureInfo.GetCultureInfo(culture).NumberFormat.CurrencyDecimalDigits, Currency.MinorUnits(code));
    }

    /// <summary>365.125 is the tax of ubl-tc434-example2 in the EN 16931 artefacts, stated as 365.13 (BR-CO-17).</summary>
    [Theory]
    [InlineData("NOK", "365.125", "365.13")]
    [InlineData("EUR", "-365.125", "-365.13")]
    [InlineData("EUR", "0.005", "0.01")]
    [InlineData("EUR", "0.00499999", "0.00")]
    [InlineData("EUR", "2.675", "2.68")]
    [InlineData("JPY", "1234.5", "1235")]
    [InlineData("JPY", "-0.5", "-1")]
    [InlineData("JPY", "2.5", "3")]
    [InlineData("KWD", "1.0005", "1.001")]
    [InlineData("KWD", "1.00049", "1.000")]
    public void Money_is_rounded_half_away_from_zero_to_the_minor_unit(string code, string amount, string rounded) =>
        Assert.Equal(decimal.Parse(rounded, CultureInfo.InvariantCulture), Totals.Round(decimal.Parse(amount, CultureInfo.InvariantCulture), Currency.MinorUnits(code)));

    [Fact]
    public void The_smallest_amount_is_one_minor_unit()
    {
        Assert.Equal(0.01m, Currency.SmallestAmount("EUR"));
        Assert.Equal(1m, Currency.SmallestAmount("JPY"));
        Assert.Equal(0.001m, Currency.SmallestAmount("KWD"));
    }

    [Theory]
    [InlineData("eur")]
    [InlineData(" EUR ")]
    public void Small_letters_and_blanks_are_forgiven(string code) => Assert.Equal("EUR", Currency.Find(code).Value);

    [Fact]
    public void Asking_for_the_digits_of_no_currency_is_misuse() => Assert.Throws<ArgumentException>("code", () => Currency.MinorUnits("XAU"));

    [Theory]
    [InlineData("EURO", "EURO")]
    [InlineData("XAU", "XAU")]
    [InlineData("", "")]
    [InlineData(null, "")]
    public void An_unknown_code_is_refused_by_name(string? code, string named) =>
        Assert.Equal(new UnknownCurrency(named), Currency.Find(code).Failure);
}
