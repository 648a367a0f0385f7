using System.Globalization;

namespace RepairShop.Measurement.ShutterTests;

/// <summary>
/// Exposure times as photographers write them: 1/125, ½, 0.5, 1.02 s, 8.1 ms, 8,1ms, 500 µs, 1", 2 min. A bare number is seconds.
/// <para>
/// Readings in a list are parted by blanks, line ends, semicolons, or a comma with a blank behind it; a comma with none is a decimal comma.
/// A unit written once, after the last reading, counts for the bare numbers before it ("8.1, 8.2, 8.3 ms"); fractions are seconds and need none.
/// </para>
/// <para>
/// Both point and comma are decimal signs. Where three digits follow one that may group thousands ("1,250"), only the culture's own decimal sign
/// is taken; below a fraction bar (1/1.000) neither is. What can be read in two ways is refused.
/// </para>
/// </summary>
public static class ReadingText
{
    /// <summary>Shortest time taken, 10 µs: an electronic flash, ten times below any mechanical shutter (our own bound).</summary>
    public const double ShortestSeconds = 10e-6;

    /// <summary>Longest time taken, one hour (our own bound).</summary>
    public const double LongestSeconds = 3600;

    /// <summary>Most characters of one reading.</summary>
    public const int LongestReading = 64;

    /// <summary>Most characters of a list.</summary>
    public const int LongestList = 4000;

    /// <summary>Reads one exposure time.</summary>
    /// <param name="text">Anything at all.</param>
    /// <param name="culture">Whose decimal sign is beyond doubt; null for the invariant culture (point).</param>
    /// <returns>The reading, or the reason why there is none; never throws.</returns>
    public static ReadingOutcome Parse(string? text, IFormatProvider? culture = null)
    {
        if (text?.Trim().Length > LongestReading) return new(null, Refuse(ReadingFault.TextTooLong, text));
        var all = ParseLine(text, culture);
        if (all.Refusal is not null) return new(null, all.Refusal);
        return all.Readings is [var only]
            ? new(only, null)
            : new(null, Refuse(ReadingFault.MoreThanOne, text!));
    }

    /// <summary>Reads a list of exposure times.</summary>
    /// <param name="text">Anything at all.</param>
    /// <param name="culture">Whose decimal sign is beyond doubt; null for the invariant culture (point).</param>
    /// <returns>All readings, or the first refusal; never throws.</returns>
    public static ReadingsOutcome ParseLine(string? text, IFormatProvider? culture = null)
    {
        if (text?.Length > LongestList) return new([], Refuse(ReadingFault.TextTooLong, text));
        var items = ReadingItems.Split(text ?? "");
        if (items.Count == 0) return new([], new(ReadingFault.Empty, ""));

        var ownSign = NumberFormatInfo.GetInstance(culture ?? CultureInfo.InvariantCulture).NumberDecimalSeparator == "," ? ',' : '.';
        var parsed = new List<ReadingItem>(items.Count);
        for (var i = 0; i < items.Count; i++)
        {
            if (ReadingItems.MayBelongTogether(items, i) is { } doubt)
                return new([], Refuse(doubt, $"{items[i].Typed} {items[i + 1].Typed}"));
            if (items[i].Typed.Length > LongestReading) return new([], Refuse(ReadingFault.TextTooLong, items[i].Typed));
            if (ReadingItem.Read(items[i], ownSign, out var item) is { } fault) return new([], Refuse(fault, items[i].Typed));
            parsed.Add(item);
        }

        return InSeconds(parsed);
    }

    private static ReadingsOutcome InSeconds(List<ReadingItem> items)
    {
        var unitOfAll = items[^1].UnitSeconds;
        var namedOnce = items.Count(i => i.UnitSeconds is not null) == 1 && unitOfAll is not null;
        var anyNamed = items.Exists(i => i.UnitSeconds is not null);
        var readings = new List<TypedReading>(items.Count);
        foreach (var item in items)
        {
            if (item.UnitSeconds is null && !item.IsFraction && anyNamed && !namedOnce)
                return new([], Refuse(ReadingFault.UnitMissing, item.Typed));
            var unit = item.UnitSeconds ?? (item.IsFraction ? 1 : unitOfAll ?? 1);
            var seconds = item.Value * unit;
            // The bounds are inclusive, whatever the unit's multiplication leaves in the last digit.
            if (!(seconds >= ShortestSeconds * (1 - 1e-12))) return new([], Refuse(ReadingFault.TooShort, item.Typed));
            if (!(seconds <= LongestSeconds * (1 + 1e-12))) return new([], Refuse(ReadingFault.TooLong, item.Typed));
            readings.Add(new(seconds, item.Step * unit, item.Typed));
        }

        return new(readings, null);
    }

    private static ReadingRefusal Refuse(ReadingFault fault, string text)
    {
        const int shown = 40;
        var trimmed = text.Trim();
        if (trimmed.Length <= shown) return new(fault, trimmed);
        // Not through the middle of an emoji.
        var cut = char.IsHighSurrogate(trimmed[shown - 1]) ? shown - 1 : shown;
        return new(fault, trimmed[..cut] + "…");
    }
}
