using System.Globalization;
using System.Text.RegularExpressions;

namespace RepairShop.Measurement.ShutterTests;

/// <summary>One reading, still in the unit it was written in.</summary>
/// <param name="Value">The number, greater than 0; infinite when it overflows.</param>
/// <param name="Step">What one step of the last written digit is worth.</param>
/// <param name="IsFraction">Written as a fraction.</param>
/// <param name="UnitSeconds">The unit in seconds; null when none was written.</param>
/// <param name="Typed">As typed.</param>
internal readonly partial record struct ReadingItem(double Value, double Step, bool IsFraction, double? UnitSeconds, string Typed)
{
    private static readonly (int Over, int Under)[] Vulgar =
        [(1, 2), (1, 3), (2, 3), (1, 4), (3, 4), (1, 5), (2, 5), (3, 5), (4, 5), (1, 6), (5, 6), (1, 7), (1, 8), (3, 8), (5, 8), (7, 8), (1, 9), (1, 10)];

    /// <summary>Reads one item; null when it could be read.</summary>
    public static ReadingFault? Read(ItemText text, char ownSign, out ReadingItem item)
    {
        item = default;
        var match = Shape().Match(text.Folded);
        if (!match.Success) return WhyNot(text.Folded);

        double? unit = null;
        if (match.Groups["unit"] is { Success: true, Value: var name })
        {
            unit = InSeconds(name);
            if (unit is null) return ReadingFault.UnknownUnit;
        }

        var fault = match.Groups["glyph"].Success
            ? Glyph(match, out var value, out var step)
            : Number(match, ownSign, out value, out step);
        if (fault is not null) return fault;
        if (match.Groups["sign"].Value == "-") return value == 0 ? ReadingFault.Zero : ReadingFault.Negative;
        if (value == 0) return IsZero(match) ? ReadingFault.Zero : ReadingFault.TooShort;
        item = new(value, step, match.Groups["glyph"].Success || match.Groups["under"].Success, unit, text.Typed);
        return null;
    }

    public static bool IsUnitLike(string folded) => folded.Trim('.') is var word && InSeconds(word) is not null;

    private static ReadingFault? Glyph(Match match, out double value, out double step)
    {
        var (over, under) = Vulgar[ReadingItems.VulgarFractions.IndexOf(match.Groups["glyph"].Value[0])];
        var whole = match.Groups["whole"] is { Success: true, Value: var digits } ? double.Parse(digits, CultureInfo.InvariantCulture) : 0;
        value = whole + (double)over / under;
        step = FractionStep(over, under);
        return null;
    }

    private static ReadingFault? Number(Match match, char ownSign, out double value, out double step)
    {
        value = step = 0;
        var isUnder = match.Groups["under"].Success;
        var over = match.Groups["over"].Success ? match.Groups["over"].Value : "1";
        if (MayGroupThousands(over, isUnder ? null : ownSign)) return ReadingFault.AmbiguousSeparator;
        var exponent = match.Groups["exponent"].Value;
        value = double.Parse(over.Replace(',', '.') + exponent, CultureInfo.InvariantCulture);
        step = LastDigit(over);
        if (exponent.Length > 0) step *= double.Parse("1" + exponent, CultureInfo.InvariantCulture);
        if (!isUnder) return null;

        var underText = match.Groups["under"].Value;
        if (MayGroupThousands(underText, null)) return ReadingFault.AmbiguousSeparator;
        var under = double.Parse(underText.Replace(',', '.'), CultureInfo.InvariantCulture);
        if (under == 0) return ReadingFault.DividedByZero;
        step = FractionStep(value, under, LastDigit(underText));
        value /= under;
        return null;
    }

    /// <summary>Half the way from the next longer to the next shorter fraction: a/u² for one step of the lower number.</summary>
    private static double FractionStep(double over, double under, double underStep = 1) => over * underStep / (under * under);

    /// <summary>What one step of the last digit is worth: 0.1 for "8.1".</summary>
    private static double LastDigit(string number) =>
        number.IndexOfAny(['.', ',']) is var at and >= 0 ? 1 / Math.Pow(10, number.Length - at - 1) : 1;

    /// <summary>One to three digits, not a lone zero, a sign that is not beyond doubt, exactly three digits.</summary>
    private static bool MayGroupThousands(string number, char? ownSign)
    {
        var at = number.IndexOfAny(['.', ',']);
        return at is >= 1 and <= 3 && number.Length - at - 1 == 3 && number[0] != '0' && number[at] != ownSign;
    }

    private static bool IsZero(Match match) =>
        !match.Groups["over"].Value.Any(c => c is >= '1' and <= '9');

    private static ReadingFault WhyNot(string folded)
    {
        var bare = folded.TrimStart('+', '-');
        if (bare.StartsWith('∞') || bare.StartsWith("nan", StringComparison.OrdinalIgnoreCase)
            || bare.StartsWith("inf", StringComparison.OrdinalIgnoreCase)) return ReadingFault.NotFinite;
        return Grouped().IsMatch(folded) ? ReadingFault.AmbiguousSeparator : ReadingFault.NotATime;
    }

    private static double? InSeconds(string name) => name.ToLowerInvariant() switch
    {
        "s" or "sec" or "secs" or "second" or "seconds" or "\"" or "''" => 1,
        "ms" or "msec" or "millisecond" or "milliseconds" => 1e-3,
        "us" or "usec" or "microsecond" or "microseconds" => 1e-6,
        "min" or "minute" or "minutes" => 60,
        _ => null,
    };

    [GeneratedRegex("""
        ^(?<sign>[+-]?)\s*
        (?: (?<whole>[0-9]{1,4})? (?<glyph>[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒])
          | ⅟ \s* (?<under>[0-9]*[.,]?[0-9]+)
          | (?<over>[0-9]*[.,]?[0-9]+) \s* / \s* (?<under>[0-9]*[.,]?[0-9]+)
          | (?<over>[0-9]*[.,]?[0-9]+) (?<exponent>e[+-]?[0-9]{1,5})? )
        \s* (?<unit>\p{L}+|"|'')? \.?$
        """, RegexOptions.IgnorePatternWhitespace | RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Shape();

    [GeneratedRegex("^[+-]?(?:[0-9]+/)?(?:[0-9]{1,3}'[0-9]{3}|[0-9]+[.,'][0-9]+[.,'][0-9])", RegexOptions.CultureInvariant)]
    private static partial Regex Grouped();
}
