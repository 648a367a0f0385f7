using System.Globalization;
using RepairShop.Domain.ShutterTests;
using RepairShop.Measurement.ShutterTests;
using Xunit;

namespace RepairShop.Domain.Tests.ShutterTests;

public class ReadingFailuresTests
{
    [Theory]
    [InlineData("1/0", "“1/0” is not a time: nothing can be divided by zero. Write the number under the bar, as in 1/125.")]
    [InlineData("abc", "“abc” is not a time: write it as 1/125, 8.1 ms, ½ or 1.02 s.")]
    [InlineData("", "There is no time here yet: type one such as 1/125, 8.1 ms or 1.02 s.")]
    [InlineData("-8 ms", "“-8 ms” is below zero: write the exposure time without the minus sign.")]
    [InlineData("7200", "“7200” is longer than an hour: check the unit, or write a fraction such as 1/125.")]
    [InlineData("8.1 ms 8.2 8.3", "“8.2” has no unit while others in the list have one: write ms or s behind every reading, or once behind the last.")]
    [InlineData("1 1/2", "“1 1/2” may be one time or two readings: write 1.5 for one and a half, or 1; 1/2 for two readings.")]
    [InlineData("8\u0001ms", "“8�ms” is not a time: write it as 1/125, 8.1 ms, ½ or 1.02 s.")]
    public void A_refused_reading_says_in_one_sentence_what_is_wrong_and_what_to_write(string typed, string sentence)
    {
        var refused = new ReadingRefused("Readings", ReadingText.ParseLine(typed, CultureInfo.InvariantCulture).Refusal!);
        Assert.Equal(sentence, refused.Message);
        Assert.Equal("Readings", refused.Field);
    }

    [Fact]
    public void A_bare_dial_mark_is_answered_with_both_meanings() =>
        Assert.Equal("“125” on a dial may mean 1/125 s or 125 s: write the mark as a fraction or with its unit.",
            ReadingSentence.For(MarkedSpeed.Parse("125").Refusal!));

    [Fact]
    public void Every_fault_has_a_sentence_of_its_own_that_names_the_text()
    {
        var sentences = Enum.GetValues<ReadingFault>().Select(fault => ReadingSentence.For(new(fault, "xyz"))).ToList();
        Assert.Equal(sentences.Count, sentences.Distinct().Count());
        Assert.Equal(sentences.Count - 1, sentences.Count(sentence => sentence.Contains("“xyz”")));
        Assert.All(sentences, sentence => Assert.EndsWith(".", sentence));
    }

    [Fact]
    public void Half_an_emoji_does_not_break_the_sentence() =>
        Assert.Contains("“�”", ReadingSentence.For(new(ReadingFault.NotATime, "\uD83D")));
}
