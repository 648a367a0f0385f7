using FsCheck;
using FsCheck.Fluent;
using RepairShop.Domain.Shop;
using Xunit;

namespace RepairShop.Domain.Tests.Shop;

public sealed class CreditorReferenceTests
{
    /// <summary>ISO 11649 worked example: 539007547034 has the check digits 18.</summary>
    [Fact]
    public void The_published_example() => Assert.Equal("RF18539007547034", CreditorReference.Of("539007547034"));

    [Theory]
    [InlineData("RF18539007547034", true)]
    [InlineData("rf18 5390 0754 7034", true)]
    [InlineData("RF19539007547034", false)]
    [InlineData("RF18539007547043", false)]
    [InlineData("I-2026-0001", false)]
    [InlineData("RF", false)]
    [InlineData("", false)]
    public void A_reference_is_sound_or_not(string typed, bool sound) => Assert.Equal(sound, CreditorReference.IsValid(typed));

    [Fact]
    public void Every_number_of_ours_gives_a_sound_reference() => Prop.ForAll(
        Gen.Choose(0, 999_999).ToArbitrary(), number => CreditorReference.IsValid(CreditorReference.Of($"I-2026-{number:0000}")!)).QuickCheckThrowOnFailure();

    [Theory]
    [InlineData("")]
    [InlineData("--")]
    [InlineData("1234567890123456789012")] // 22 characters; 21 fit
    public void A_number_that_does_not_fit_has_none(string number) => Assert.Null(CreditorReference.Of(number));
}
