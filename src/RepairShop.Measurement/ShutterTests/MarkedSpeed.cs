using System.Globalization;

namespace RepairShop.Measurement.ShutterTests;

/// <summary>Which time stands behind a mark of the modern series.</summary>
public enum ReferenceRule
{
    /// <summary>The power of two the mark is rounded from: 1/125 stands for 1/128 s (reference values behind ISO 516 / JIS B 7091 marks).</summary>
    TrueBinary,

    /// <summary>The mark as written: 1/125 is 8 ms.</summary>
    LiteralMark,
}

/// <summary>One mark of a shutter's dial.</summary>
public sealed record MarkedSpeed
{
    /// <summary>Marks rounded from a power of two, with the true value in seconds.</summary>
    private static readonly Dictionary<double, double> TrueSeconds = new()
    {
        [15] = 16,
        [30] = 32,
        [60] = 64,
        [1.0 / 15] = 1.0 / 16,
        [1.0 / 30] = 1.0 / 32,
        [1.0 / 60] = 1.0 / 64,
        [1.0 / 125] = 1.0 / 128,
        [1.0 / 250] = 1.0 / 256,
        [1.0 / 500] = 1.0 / 512,
        [1.0 / 1000] = 1.0 / 1024,
        [1.0 / 2000] = 1.0 / 2048,
        [1.0 / 4000] = 1.0 / 4096,
        [1.0 / 8000] = 1.0 / 8192,
    };

    private MarkedSpeed(string text, double? literalSeconds) => (Text, LiteralSeconds) = (text, literalSeconds);

    /// <summary>The bulb mark: open as long as the release is held; it has no time to be held against.</summary>
    public static MarkedSpeed B { get; } = new("B", null);

    /// <summary>The time mark: open until released again; it has no time to be held against.</summary>
    public static MarkedSpeed T { get; } = new("T", null);

    /// <summary>Canonical text, the same in every culture: "1", "1/2", "1/125", "2 s", "0.3 s", "B", "T".</summary>
    public string Text { get; }

    /// <summary>The mark read literally, in seconds, greater than 0; null for B and T.</summary>
    public double? LiteralSeconds { get; }

    /// <summary>
    /// The time the mark is held against, in seconds; null for B and T. Only marks of the modern series have a binary value behind them;
    /// every other mark (1/25, 1/300) is literal under either rule.
    /// </summary>
    /// <param name="rule">The shop's rule; take it through <see cref="SpeedSeries.RuleFor"/> where an old series also has 1/250 and 1/500.</param>
    public double? ReferenceSeconds(ReferenceRule rule) =>
        LiteralSeconds is { } literal && rule == ReferenceRule.TrueBinary && TrueSeconds.TryGetValue(literal, out var trueSeconds) ? trueSeconds : LiteralSeconds;

    /// <summary>
    /// Reads a mark as it stands on a dial or a list. A whole number other than 1 is refused, since dials write 1/125 as "125" and 2 s as "2":
    /// it must be written as a fraction or with its unit.
    /// </summary>
    /// <param name="text">Anything at all; never throws.</param>
    /// <returns>The mark, or why there is none.</returns>
    public static MarkedSpeedOutcome Parse(string? text)
    {
        var trimmed = text?.Trim() ?? "";
        if (trimmed.Equals("B", StringComparison.OrdinalIgnoreCase)) return new(B, null);
        if (trimmed.Equals("T", StringComparison.OrdinalIgnoreCase)) return new(T, null);
        var (reading, refusal) = ReadingText.Parse(text, CultureInfo.InvariantCulture);
        if (reading is null) return new(null, refusal);
        if (trimmed != "1" && trimmed.All(char.IsAsciiDigit)) return new(null, new(ReadingFault.BareMark, trimmed));
        return FromSeconds(reading.Seconds) is { } mark ? new(mark, null) : new(null, new(ReadingFault.NotOnADial, reading.Text));
    }

    /// <summary>
    /// Reads the marks of a whole dial, parted by blanks, line ends, commas or semicolons: "1 1/2 1/5 1/10 B T". A mark given twice counts once.
    /// </summary>
    /// <param name="text">Anything at all; never throws.</param>
    /// <returns>The marks in the order typed, or the first refusal; nothing is dropped silently.</returns>
    public static MarkedSpeedsOutcome ParseDial(string? text)
    {
        if (text?.Length > ReadingText.LongestList) return new([], new(ReadingFault.TextTooLong, text[..20] + "…"));
        var words = new List<string>();
        foreach (var word in (text ?? "").Split([' ', '\u00A0', '\u202F', '\t', '\r', '\n', ',', ';'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (words.Count > 0 && char.IsAsciiDigit(words[^1][^1]) && ReadingItem.IsUnitLike(word)) words[^1] += " " + word;
            else words.Add(word);
        }

        if (words.Count == 0) return new([], new(ReadingFault.Empty, ""));
        var marks = new List<MarkedSpeed>(words.Count);
        foreach (var word in words)
        {
            var (mark, refusal) = Parse(word);
            if (mark is null) return new([], refusal);
            if (!marks.Contains(mark)) marks.Add(mark);
        }

        return new(marks, null);
    }

    private static MarkedSpeed? FromSeconds(double seconds)
    {
        if (Tidy(seconds, 1) is { } whole && whole >= 1)
            return new(whole == 1 ? "1" : Write(whole) + " s", whole);
        if (Tidy(1 / seconds, 1) is { } under && under > 1)
            return new("1/" + Write(under), 1 / under);
        return Tidy(seconds, 2) is { } part and < 1 ? new(Write(part) + " s", part) : null;
    }

    private static double? Tidy(double value, int decimals) =>
        Math.Round(value, decimals) is var rounded && rounded > 0 && Math.Abs(rounded - value) <= 1e-9 * value ? rounded : null;

    private static string Write(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <inheritdoc/>
    public override string ToString() => Text;
}

/// <summary>A mark, or why there is none.</summary>
/// <param name="Mark">The mark; null when refused.</param>
/// <param name="Refusal">Why not; null when read.</param>
public sealed record MarkedSpeedOutcome(MarkedSpeed? Mark, ReadingRefusal? Refusal);

/// <summary>All marks of a dial, or the first that could not be read.</summary>
/// <param name="Marks">The marks in the order typed; empty when refused.</param>
/// <param name="Refusal">Why not; null when all were read.</param>
public sealed record MarkedSpeedsOutcome(IReadOnlyList<MarkedSpeed> Marks, ReadingRefusal? Refusal);
