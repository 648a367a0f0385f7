using RepairShop.Documents.Text;

namespace RepairShop.Documents.Tests.Text;

/// <summary>The Unicode bidirectional algorithm, with capitals for Hebrew letters as UAX #9 writes its examples.</summary>
public class BidiTests
{
    private static string Levels(string text) => string.Concat(Bidi.Levels(Hebrew(text)));

    /// <summary>A–Z become Hebrew letters א–ש, a–z stay Latin.</summary>
    private static string Hebrew(string text) => string.Concat(text.Select(c => c is >= 'A' and <= 'Z' ? (char)('א' + (c - 'A') % 27) : c));

    [Theory]
    // UAX #9, section 3.4 (L2), the examples without embeddings.
    [InlineData("car means CAR.", "00000000001110")]
    [InlineData("CAR MEANS car.", "11111111112221")]
    // W4, W5, W7 and I1–I2 worked by hand from the rules.
    [InlineData("abc 12", "000000")]
    [InlineData("ABC 12", "111122")]
    [InlineData("ABC 1.5", "1111222")]
    [InlineData("ABC 12%", "1111222")]
    [InlineData("ABC (12) DEF", "111112211111")]
    [InlineData("ABC +12", "1111122")]
    [InlineData("abc ABC 12 def", "00001111220000")]
    // N0: the brackets go with the paragraph, not with the letter beside them.
    [InlineData("a (B) c", "0001000")]
    [InlineData("A (b) C", "1112111")]
    // UAX #9, 3.3.5, example 2 of N0 in a right-to-left paragraph.
    [InlineData("AB(CD[&ef]!)gh", "11111112211122")]
    public void Levels_are_as_the_rules_say(string text, string levels) => Assert.Equal(levels, Levels(text));

    [Fact]
    public void Arabic_letters_make_European_digits_Arabic_numbers_and_signs_between_them_join()
    {
        // W2 and W4: after an Arabic letter 1,2 is AN CS AN, all at level 2.
        Assert.Equal("1111222", string.Concat(Bidi.Levels("علي 1,2")));
    }

    [Fact]
    public void Runs_are_turned_from_the_highest_level_down()
    {
        var runs = new List<(string Text, int Level)> { ("he said ", 0), ("car", 2), (" ", 1), ("MEANS", 1), (" ", 1), ("12", 2), (".", 0) };
        Bidi.Reorder(runs, run => run.Level);
        Assert.Equal("he said 12 MEANS car.", string.Concat(runs.Select(run => run.Text)));
    }

    [Fact]
    public void Text_without_right_to_left_letters_stays_at_level_0() => Assert.All(Bidi.Levels("Ines & Łukasz, 12 % – (½) Ω"), level => Assert.Equal(0, level));
}
