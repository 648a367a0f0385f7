using RepairShop.Domain.Shop;
using Xunit;

namespace RepairShop.Domain.Tests.Shop;

public class IbanTests
{
    /// <summary>
    /// BE72 stands in the European Payments Council's QR guideline (EPC069-12 v2.1), DE71 in a public sample of it; GB82, DE89, BE68, FR14 and AT61
    /// are, from memory, the IBAN registry's own examples, NL20 a made-up number often used as one. The remainder of each was worked out apart.
    /// </summary>
    [Theory]
    [InlineData("GB82WEST12345698765432")]
    [InlineData("DE89370400440532013000")]
    [InlineData("BE68539007547034")]
    [InlineData("BE72000000001616")]
    [InlineData("FR1420041010050500013M02606")]
    [InlineData("AT611904300234573201")]
    [InlineData("NL20INGB0001234567")]
    [InlineData("DE71110220330123456789")]
    public void A_published_example_is_taken(string text)
    {
        Assert.Equal(text, Iban.Check(text).Value);
        Assert.True(Iban.IsValid(text));
    }

    [Theory]
    [InlineData("de89 3704 0044 0532 0130 00")]
    [InlineData(" DE89-3704-0044-0532-0130-00\t")]
    [InlineData("IBAN: DE89 3704 0044 0532 0130 00")]
    [InlineData("DE89\u00A03704\u202F0044 0532 0130 00\u200E")]
    public void Blanks_hyphens_and_small_letters_are_forgiven(string text)
    {
        Assert.Equal("DE89370400440532013000", Iban.Check(text).Value);
        Assert.Equal("DE89 3704 0044 0532 0130 00", Iban.Grouped(text));
    }

    /// <summary>The account in ubl-tc434-example4 of the EN 16931 artefacts is no IBAN: remainder 55.</summary>
    [Fact]
    public void A_published_account_that_is_none_is_refused()
    {
        Assert.Equal(new IbanCheckFailed("DK1212341234123412"), Iban.Check("DK1212341234123412").Failure);
        Assert.Equal(55, Iban.Remainder("DK1212341234123412"));
    }

    /// <summary>ISO 11649: the creditor reference of a public QR sample passes the same check.</summary>
    [Fact]
    public void A_creditor_reference_leaves_the_same_remainder() => Assert.Equal(1, Iban.Remainder("RF18539007547034"));

    [Fact]
    public void One_wrong_digit_is_always_caught()
    {
        const string sound = "GB82WEST12345698765432";
        for (var at = 2; at < sound.Length; at++)
            foreach (var digit in "0123456789")
                if (char.IsAsciiDigit(sound[at]) && digit != sound[at])
                    Assert.IsType<IbanCheckFailed>(Iban.Check(sound[..at] + digit + sound[(at + 1)..]).Failure);
    }

    [Fact]
    public void Two_digits_that_changed_places_are_always_caught()
    {
        const string sound = "DE89370400440532013000";
        for (var at = 4; at + 1 < sound.Length; at++)
            if (sound[at] != sound[at + 1])
                Assert.IsType<IbanCheckFailed>(Iban.Check(sound[..at] + sound[at + 1] + sound[at] + sound[(at + 2)..]).Failure);
    }

    [Theory]
    [InlineData("")]
    [InlineData(null)]
    [InlineData("12345678")]
    [InlineData("DEAB370400440532013000")]
    [InlineData("DE89 3704 0044 0532 0130 0ü")]
    [InlineData("DE89370400440532013000DE89370400440")]
    [InlineData("IBAN")]
    public void What_is_not_shaped_like_one_is_refused(string? text) => Assert.IsType<IbanNotWellFormed>(Iban.Check(text).Failure);

    [Fact]
    public void The_wrong_length_for_its_country_is_told_in_numbers()
    {
        var failure = Assert.IsType<IbanLengthWrong>(Iban.Check("DE8937040044053201300").Failure);
        Assert.Equal((22, 21), (failure.Expected, failure.Actual));
        Assert.Equal("“DE8937040044053201300” has 21 characters, but an IBAN of DE has 22: check it against the bank's letter.", failure.Message);
        Assert.Equal("Iban", failure.Field);
    }

    [Fact]
    public void A_country_without_ibans_is_named() => Assert.Equal("US", Assert.IsType<IbanCountryUnknown>(Iban.Check("US64SVBKUS6S3300958879").Failure).Country);
}
