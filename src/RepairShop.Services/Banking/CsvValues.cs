using System.Globalization;
using System.Text.RegularExpressions;

namespace RepairShop.Services.Banking;

/// <summary>How a table may write a day and an amount.</summary>
public static partial class CsvValues
{
    /// <summary>Ways to write a day, the ones that can't be mistaken first.</summary>
    private static readonly string[] YearFirst = ["yyyy-M-d", "yyyy/M/d", "yyyy.M.d", "yyyyMMdd"];

    private static readonly string[] DayFirst = ["d.M.yyyy", "d/M/yyyy", "d-M-yyyy", "d.M.yy", "d/M/yy", "d-M-yy", "d MMM yyyy", "d-MMM-yyyy"];

    private const int LongestAmount = 40;

    private static readonly string[] MonthFirst = ["M/d/yyyy", "M-d-yyyy", "M.d.yyyy", "M/d/yy", "M-d-yy"];

    [GeneratedRegex(@"^(?<sign>[+\-−–]?)\s*(?:[A-Z]{3}|\p{Sc})?\s*(?<sign2>[+\-−–]?)(?<number>\d[\d.,'’\s]*)\s*(?:[A-Z]{3}|\p{Sc})?\s*(?<sign3>[+\-−–]?)$", RegexOptions.CultureInvariant)]
    private static partial Regex Money();

    public static bool MayBeDay(string cell) => Day(cell, monthFirst: false) is not null || Day(cell, monthFirst: true) is not null;

    public static bool MayBeAmount(string cell) => (Amount(cell, ',') is not null || Amount(cell, '.') is not null) && !MayBeDay(cell);

    /// <summary>A time of day behind it is passed over.</summary>
    public static DateOnly? Day(string cell, bool monthFirst)
    {
        if (cell.Length is < 6 or > 30)
            return null;
        var day = cell.Split('T', 2)[0];
        day = TimeBehind().Replace(day, "");
        string[] ways = [.. YearFirst, .. monthFirst ? MonthFirst : DayFirst];
        return DateOnly.TryParseExact(day, ways, CultureInfo.InvariantCulture, DateTimeStyles.None, out var read) && StatementParts.IsUsual(read) ? read : null;
    }

    /// <summary>With its sign, before or behind; groups of three may be set apart by anything but the sign for decimals.</summary>
    public static decimal? Amount(string cell, char decimalSign)
    {
        if (cell.Length > LongestAmount || Money().Match(cell) is not { Success: true } match)
            return null;
        var signs = string.Concat(match.Groups["sign"].Value, match.Groups["sign2"].Value, match.Groups["sign3"].Value);
        if (signs.Length > 1)
            return null;
        var parts = match.Groups["number"].Value.TrimEnd().Split(decimalSign);
        if (parts.Length > 2 || (parts.Length == 2 && !parts[1].All(char.IsAsciiDigit)) || Whole(parts[0]) is not { } whole)
            return null;
        var amount = StatementParts.Amount(parts.Length == 2 && parts[1].Length > 0 ? $"{whole}.{parts[1]}" : whole);
        return signs.Length == 0 || signs == "+" ? amount : -amount;
    }

    /// <summary>The digits before the sign for decimals, where groups are groups of three.</summary>
    private static string? Whole(string text)
    {
        var groups = text.Split(['.', ',', '\'', '’', ' ', '\u00A0', '\u202F'], StringSplitOptions.None);
        var isWritten = groups.All(group => group.Length > 0 && group.All(char.IsAsciiDigit))
            && (groups.Length == 1 || (groups[0].Length <= 3 && groups.Skip(1).All(group => group.Length == 3)));
        return isWritten ? string.Concat(groups) : null;
    }

    [GeneratedRegex(@"\s+\d{1,2}:\d{2}(:\d{2})?$", RegexOptions.CultureInvariant)]
    private static partial Regex TimeBehind();
}
