using System.Globalization;

namespace RepairShop.Domain.Shop;

/// <summary>A day inside a sentence, as the locale of whoever reads it writes days.</summary>
public static class DayText
{
    /// <summary>"24 November 2026", in the order of the current culture and without its weekday.</summary>
    public static string Write(DateOnly day)
    {
        var culture = CultureInfo.CurrentCulture;
        var pattern = culture.DateTimeFormat.LongDatePattern;
        return day.ToString(pattern.Contains("dddd", StringComparison.Ordinal) ? pattern.Replace("dddd", "", StringComparison.Ordinal).Trim(' ', ',', '.', '،') : pattern, culture);
    }
}
