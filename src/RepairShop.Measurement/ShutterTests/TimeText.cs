namespace RepairShop.Measurement.ShutterTests;

/// <summary>Exposure times as people read them. <see cref="ReadingText"/> reads every text written here back, given the same culture.</summary>
public static class TimeText
{
    private static readonly (double Seconds, string Text)[] Glyphs = [(0.5, "½"), (0.25, "¼"), (0.125, "⅛")];

    /// <summary>
    /// A photographer's way: "1/125", "1/3.6", "½", "1 s", "1.02 s". From 0.3 s on seconds to three digits, below that a fraction with the nearest
    /// whole number under the bar, or tenth where that number is below 20. It is within 2.5 % of the time: print milliseconds beside it.
    /// </summary>
    /// <param name="seconds">Exposure time in seconds, greater than 0.</param>
    /// <param name="culture">Decimal sign.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static string Photographic(double seconds, IFormatProvider culture)
    {
        Guard.Positive(seconds);
        foreach (var (exact, text) in Glyphs)
            if (Math.Abs(seconds - exact) <= 1e-9 * exact) return text;
        var under = Math.Round(1 / seconds);
        if (seconds < 0.3 || (under > 1 && Math.Abs(under * seconds - 1) <= 1e-9)) return "1/" + (1 / seconds).ToString(under < 20 ? "0.#" : "0", culture);
        return ToDigits(seconds, 3, culture) + " s";
    }

    /// <summary>Milliseconds to four digits: "7.8125" becomes "7.813 ms", a second "1000 ms".</summary>
    /// <param name="seconds">Exposure time in seconds, greater than 0.</param>
    /// <param name="culture">Decimal sign; thousands are not grouped.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static string Milliseconds(double seconds, IFormatProvider culture) => ToDigits(Guard.Positive(seconds) * 1000, 4, culture) + " ms";

    /// <summary>Both: "1/128 (7.813 ms)".</summary>
    /// <param name="seconds">Exposure time in seconds, greater than 0.</param>
    /// <param name="culture">Decimal sign.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static string Full(double seconds, IFormatProvider culture) =>
        $"{Photographic(seconds, culture)} ({Milliseconds(seconds, culture)})";

    private static string ToDigits(double value, int digits, IFormatProvider culture)
    {
        var decimals = Math.Clamp(digits - 1 - (int)Math.Floor(Math.Log10(value)), 0, 12);
        return value.ToString("0." + new string('#', decimals), culture);
    }
}
