namespace RepairShop.Measurement.ShutterTests;

/// <summary>Why a typed text is no exposure time.</summary>
public enum ReadingFault
{
    /// <summary>Nothing but blanks.</summary>
    Empty,

    /// <summary>Longer than anybody types: over 64 characters for one reading, over 4,000 for a list.</summary>
    TextTooLong,

    /// <summary>No exposure time can be seen in it.</summary>
    NotATime,

    /// <summary>A number with a unit that is not s, ms, µs or min.</summary>
    UnknownUnit,

    /// <summary>A fraction over nothing, 1/0.</summary>
    DividedByZero,

    /// <summary>No time at all.</summary>
    Zero,

    /// <summary>A time below zero.</summary>
    Negative,

    /// <summary>"NaN", "infinity" or "∞".</summary>
    NotFinite,

    /// <summary>Below <see cref="ReadingText.ShortestSeconds"/>.</summary>
    TooShort,

    /// <summary>Above <see cref="ReadingText.LongestSeconds"/>.</summary>
    TooLong,

    /// <summary>A sign or a space that may part thousands or decimals: 1,000 or 1 000 or 1'000.</summary>
    AmbiguousSeparator,

    /// <summary>"1 1/2": one and a half, or two readings.</summary>
    AmbiguousFraction,

    /// <summary>Some readings of the list name a unit and this one does not.</summary>
    UnitMissing,

    /// <summary>Several readings where one is asked for.</summary>
    MoreThanOne,

    /// <summary>A dial mark written as a whole number: "125" may be 1/125 s or 125 s.</summary>
    BareMark,

    /// <summary>A time no dial is marked with, such as 1/123.456.</summary>
    NotOnADial,
}

/// <summary>A refused text: data for a sentence, not an exception.</summary>
/// <param name="Fault">Why.</param>
/// <param name="Text">The offending part as typed, at most 40 characters and then "…"; empty only for <see cref="ReadingFault.Empty"/>.</param>
public sealed record ReadingRefusal(ReadingFault Fault, string Text);

/// <summary>One typed exposure time.</summary>
/// <param name="Seconds">The time in seconds, from <see cref="ReadingText.ShortestSeconds"/> to <see cref="ReadingText.LongestSeconds"/>.</param>
/// <param name="StepSeconds">
/// What one step of the last written digit is worth, in seconds, greater than 0: 0.1 ms for "8.1 ms"; for "1/125" half the way from
/// 1/124 to 1/126. It stands in for the instrument's resolution when nobody states one.
/// </param>
/// <param name="Text">The reading as typed.</param>
public sealed record TypedReading(double Seconds, double StepSeconds, string Text);

/// <summary>A reading, or why there is none.</summary>
/// <param name="Reading">The reading; null when refused.</param>
/// <param name="Refusal">Why not; null when read.</param>
public sealed record ReadingOutcome(TypedReading? Reading, ReadingRefusal? Refusal);

/// <summary>All readings of a list, or the first that could not be read: nothing is dropped silently.</summary>
/// <param name="Readings">The readings in the order typed; empty when refused.</param>
/// <param name="Refusal">Why not; null when all were read.</param>
public sealed record ReadingsOutcome(IReadOnlyList<TypedReading> Readings, ReadingRefusal? Refusal);
