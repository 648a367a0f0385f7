using RepairShop.Domain.Results;
using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Domain.ShutterTests;

/// <summary>A typed exposure time or dial mark that could not be read.</summary>
/// <param name="Field">The input's name.</param>
/// <param name="Refusal">Why, and the offending text.</param>
public sealed record ReadingRefused(string Field, ReadingRefusal Refusal) : Invalid(Field, ReadingSentence.For(Refusal));

/// <summary>Puts a refused text into one friendly sentence.</summary>
public static class ReadingSentence
{
    /// <summary>One sentence that names the text, says what is wrong with it and what to write instead.</summary>
    public static string For(ReadingRefusal refusal)
    {
        ArgumentNullException.ThrowIfNull(refusal);
        var text = $"“{Visible(refusal.Text)}”";
        return refusal.Fault switch
        {
            ReadingFault.Empty => "There is no time here yet: type one such as 1/125, 8.1 ms or 1.02 s.",
            ReadingFault.TextTooLong => $"{text} is too long for a time: write readings such as 1/125 or 8.1 ms with a blank or a line end between them.",
            ReadingFault.NotATime => $"{text} is not a time: write it as 1/125, 8.1 ms, ½ or 1.02 s.",
            ReadingFault.UnknownUnit => $"{text} has a unit that is not a time: use s, ms, µs or min.",
            ReadingFault.DividedByZero => $"{text} is not a time: nothing can be divided by zero. Write the number under the bar, as in 1/125.",
            ReadingFault.Zero => $"{text} is no time at all: a shutter that did not open goes into the note, not into the readings.",
            ReadingFault.Negative => $"{text} is below zero: write the exposure time without the minus sign.",
            ReadingFault.NotFinite => $"{text} is not a number: write the exposure time as 1/125, 8.1 ms or 1.02 s.",
            ReadingFault.TooShort => $"{text} is shorter than 10 µs, faster than any shutter: check the unit.",
            ReadingFault.TooLong => $"{text} is longer than an hour: check the unit, or write a fraction such as 1/125.",
            ReadingFault.AmbiguousSeparator => $"{text} can be read in two ways: leave out what parts the thousands, put fewer or more than three digits behind the decimal sign, "
                + "or name the unit and part readings with semicolons.",
            ReadingFault.AmbiguousFraction => $"{text} may be one time or two readings: write 1.5 for one and a half, or 1; 1/2 for two readings.",
            ReadingFault.UnitMissing => $"{text} has no unit while others in the list have one: write ms or s behind every reading, or once behind the last.",
            ReadingFault.MoreThanOne => $"{text} holds more than one time: give one here.",
            ReadingFault.BareMark => $"{text} on a dial may mean 1/{Visible(refusal.Text)} s or {Visible(refusal.Text)} s: write the mark as a fraction or with its unit.",
            ReadingFault.NotOnADial => $"{text} is no mark of a dial: write one such as 1/125, 1/2, 1, 2 s, B or T.",
            _ => throw new ArgumentOutOfRangeException(nameof(refusal), refusal.Fault, "A fault without a sentence."),
        };
    }

    /// <summary>Control characters and halves of pairs would break the sentence on screen and on paper.</summary>
    private static string Visible(string text) =>
        string.Concat(text.EnumerateRunes().Select(rune => System.Text.Rune.IsControl(rune) ? "�" : rune.ToString()));
}
