using System.Globalization;
using System.Text.RegularExpressions;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Labour;

/// <summary>Lengths of work as people write them: 1:30, 1h30, 1 h 30 min, 1.5 h, 1,5, 90 min. A bare number is hours.</summary>
public static partial class LengthText
{
    /// <summary>Nobody works longer than a day at a stretch.</summary>
    public const int LongestMinutes = 24 * 60;

    /// <summary>Reads a length in whole minutes, from 1 to <see cref="LongestMinutes"/>; parts of a minute are rounded half up.</summary>
    /// <param name="text">Anything at all.</param>
    /// <param name="field">The input's name, for the failure.</param>
    public static Result<int> Read(string? text, string field = "Length")
    {
        var typed = (text ?? "").Trim();
        var shown = typed.Length > 40 ? typed[..40] + "…" : typed;
        if (typed.Length == 0)
            return new LengthNotRead(field, shown);
        var plain = typed.Replace('−', '-').Replace('–', '-').Replace(',', '.');
        if (plain[0] == '-' && MinutesOf(plain[1..].Trim()) is not null)
            return new LengthNegative(field, shown);
        if (MinutesOf(plain) is not { } minutes)
            return new LengthNotRead(field, shown);
        var whole = decimal.Round(minutes, 0, MidpointRounding.AwayFromZero);
        if (whole < 1)
            return new LengthZero(field, shown);
        return whole > LongestMinutes ? new LengthOverADay(field, shown) : (int)whole;
    }

    /// <summary>"1 h 30 min", "45 min", "2 h".</summary>
    public static string Write(int minutes) => (minutes / 60, minutes % 60) switch
    {
        (0, var rest) => $"{rest} min",
        (var hours, 0) => $"{hours} h",
        var (hours, rest) => $"{hours} h {rest:00} min",
    };

    private static decimal? MinutesOf(string plain)
    {
        if (Clock().Match(plain) is { Success: true } clock)
            return Number(clock, "hours") * 60 + Number(clock, "minutes");
        if (Parts().Match(plain) is not { Success: true } parts || parts.Length == 0)
            return null;
        return Number(parts, "hours") * 60 + Number(parts, "minutes") + Number(parts, "bare") * 60;
    }

    private static decimal Number(Match match, string group) =>
        match.Groups[group].Success ? decimal.Parse(match.Groups[group].Value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture) : 0;

    [GeneratedRegex(@"^(?<hours>\d{1,6}):(?<minutes>[0-5]\d)( ?h)?$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Clock();

    [GeneratedRegex("""
        ^(?: (?<bare>\d{0,6}\.?\d{1,6})
           | (?<hours>\d{1,6})\s*(?:h|hrs?|hours?)\s*(?<minutes>[0-5]?\d)\s*(?:m|min|mins|minutes?)?
           | (?<hours>\d{0,6}\.?\d{1,6})\s*(?:h|hrs?|hours?)\.?
           | (?<minutes>\d{0,6}\.?\d{1,6})\s*(?:m|min|mins|minutes?)\.? )$
        """, RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.IgnorePatternWhitespace)]
    private static partial Regex Parts();
}
