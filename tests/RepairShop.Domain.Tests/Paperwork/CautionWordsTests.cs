using RepairShop.Domain.Paperwork;
using Xunit;

namespace RepairShop.Domain.Tests.Paperwork;

public sealed class CautionWordsTests
{
    [Theory]
    [InlineData("Escapement flushed with naphtha", Caution.FlammableSolvent)]
    [InlineData("Flash capacitor discharged", Caution.FlashCapacitor)]
    [InlineData("Takes a PX625", Caution.MercuryCell)]
    [InlineData("Thoriated rear element, yellowed", Caution.ThoriatedGlass)]
    [InlineData("SELENIUM cell weak", Caution.SeleniumCell)]
    [InlineData("Curtain tension set", Caution.SpringUnderTension)]
    public void A_word_of_danger_brings_its_caution(string text, Caution caution) => Assert.Equal([caution], CautionWords.In([text]));

    [Theory]
    [InlineData("Bought in spring")] // a season prints one caution too many, and that does no harm
    [InlineData("Aether, ethereal, petroleum jelly on the threads")]
    public void Only_whole_words_count(string text) =>
        Assert.Equal(text.Contains("spring") ? [Caution.SpringUnderTension] : [], CautionWords.In([text]));
}
