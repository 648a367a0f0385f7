using RepairShop.Domain.Shop;
using Xunit;

namespace RepairShop.Domain.Tests.Shop;

public sealed class TaxNumbersTests
{
    /// <summary>Both numbers are the examples of the Australian Business Register, "Format of the ABN": sums of 534 and 445 are 6 and 5 times 89.</summary>
    [Theory]
    [InlineData("51 824 753 556", TaxNumberVerdict.CheckDigitsRight)]
    [InlineData("53004085616", TaxNumberVerdict.CheckDigitsRight)]
    [InlineData("ABN 51 824 753 556", TaxNumberVerdict.CheckDigitsRight)]
    [InlineData("51 824 753 557", TaxNumberVerdict.WrongCheckDigits)]
    [InlineData("15 824 753 556", TaxNumberVerdict.WrongCheckDigits)]
    [InlineData("51 824 753 55", TaxNumberVerdict.WrongFormat)]
    [InlineData("51 824 753 55X", TaxNumberVerdict.WrongFormat)]
    public void Australian_business_numbers_by_mod_89(string typed, TaxNumberVerdict verdict) => Assert.Equal(verdict, TaxNumbers.Check(typed, "AU"));

    /// <summary>Worked by hand from the rule: 1234567 gives 8+14+18+20+20+18+14 = 112; 112 + 82 = 194 = 2 × 97, and 112 + 55 + 27 = 194.</summary>
    [Theory]
    [InlineData("GB 123 4567 82", TaxNumberVerdict.CheckDigitsRight)]
    [InlineData("123456727", TaxNumberVerdict.CheckDigitsRight)]
    [InlineData("123456782001", TaxNumberVerdict.CheckDigitsRight)]
    [InlineData("XI123456782", TaxNumberVerdict.CheckDigitsRight)]
    [InlineData("GB123456783", TaxNumberVerdict.WrongCheckDigits)]
    [InlineData("GB12345678", TaxNumberVerdict.WrongFormat)]
    [InlineData("GBGD001", TaxNumberVerdict.FormatOnly)]
    public void United_Kingdom_VAT_numbers_by_mod_97(string typed, TaxNumberVerdict verdict) => Assert.Equal(verdict, TaxNumbers.Check(typed, "GB"));

    [Theory]
    [InlineData("DE", "DE 123 456 789", true)]
    [InlineData("DE", "12345678", false)]
    [InlineData("IE", "IE1234567FA", true)]
    [InlineData("IE", "1234567T", true)]
    [InlineData("NL", "NL123456789B01", true)]
    [InlineData("NL", "NL123456789X01", false)]
    [InlineData("GR", "EL123456789", true)]
    [InlineData("AT", "ATU12345678", true)]
    [InlineData("AT", "AT12345678", false)]
    [InlineData("FR", "FRXX123456789", true)]
    [InlineData("ES", "ESX1234567X", true)]
    public void Numbers_of_EU_members_by_their_form_alone(string country, string typed, bool fits) =>
        Assert.Equal(fits ? TaxNumberVerdict.FormatOnly : TaxNumberVerdict.WrongFormat, TaxNumbers.Check(typed, country));

    [Fact]
    public void Every_EU_member_has_a_form_and_other_countries_are_not_judged()
    {
        Assert.All("AT BE BG CY CZ DE DK EE ES FI FR GR HR HU IE IT LT LU LV MT NL PL PT RO SE SI SK".Split(' '), country => Assert.True(TaxNumbers.IsInEu(country), country));
        Assert.False(TaxNumbers.IsInEu("GB"));
        Assert.Equal(TaxNumberVerdict.Unknown, TaxNumbers.Check("anything", "JP"));
    }

    [Theory]
    [InlineData("123 456 789", "DE", "DE123456789")]
    [InlineData("de123456789", "DE", "DE123456789")]
    [InlineData("123456789", "GR", "EL123456789")]
    [InlineData("51 824 753 556", "AU", "AU51824753556")]
    public void With_the_letters_of_its_country_in_front(string typed, string country, string written) =>
        Assert.Equal(written, TaxNumbers.WithCountry(typed, country));
}
