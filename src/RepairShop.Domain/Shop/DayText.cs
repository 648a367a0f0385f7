using System.Globalization;

namespace RepairShop.Domain.Shop;

/// <summary>A day inside a sentence, as the locale of whoever reads it writes days.</summary>
public static class DayText
{
    /// <summary>"24 November 2026", in the order of the current culture and without its weekday.</summary>
    public static string Write(DateOnly day) => WriteIn(CultureInfo.CurrentCulture, day);

    /// <summary>The same in the order of a given culture.</summary>
    public static string WriteIn(CultureInfo culture, DateOnly day)
    {
        ArgumentNullException.ThrowIfNull(culture);
        return day.ToString(PatternOf(culture), culture);
    }

    /// <summary>A culture's long pattern without its weekday and what tied the weekday to the rest.</summary>
    public static string PatternOf(CultureInfo culture)
    {
        ArgumentNullException.ThrowIfNull(culture);
        var pattern = culture.DateTimeFormat.LongDatePattern;
        if (!pattern.Contains("dddd", StringComparison.Ordinal))
            return pattern;
        var rest = pattern.Replace("dddd", "", StringComparison.Ordinal).Replace("  ", " ", StringComparison.Ordinal).Trim(' ', ',', '،', '、', '.');
        return rest.StartsWith('\'') ? rest[(rest.IndexOf('\'', 1) + 1)..].TrimStart() : rest;
    }

    /// <summary>A culture that counts days as business papers do, also where another calendar is the locale's first.</summary>
    public static CultureInfo Gregorian(CultureInfo culture)
    {
        ArgumentNullException.ThrowIfNull(culture);
        if (culture.Calendar is GregorianCalendar)
            return culture;
        var clone = (CultureInfo)culture.Clone();
        var calendar = culture.OptionalCalendars.OfType<GregorianCalendar>().FirstOrDefault();
        if (calendar is null)
            clone.DateTimeFormat = (DateTimeFormatInfo)CultureInfo.InvariantCulture.DateTimeFormat.Clone();
        else
            clone.DateTimeFormat.Calendar = calendar;
        return clone;
    }
}
