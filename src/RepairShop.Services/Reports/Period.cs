using System.Globalization;

namespace RepairShop.Services.Reports;

/// <summary>A year or a month the owner looks at.</summary>
/// <param name="Year"></param>
/// <param name="Month">1 to 12; null for the whole year.</param>
public sealed record Period(int Year, int? Month)
{
    public DateOnly From => new(Year, Month ?? 1, 1);

    /// <summary>The day after its last.</summary>
    public DateOnly Until => Month is null ? From.AddYears(1) : From.AddMonths(1);

    /// <summary>As in an address: 2026 or 2026-11.</summary>
    public string Key => From.ToString(Month is null ? "yyyy" : "yyyy-MM", CultureInfo.InvariantCulture);

    public string Name => From.ToString(Month is null ? "yyyy" : "MMMM yyyy", CultureInfo.CurrentCulture);

    public Period Before => Of(Month is null ? From.AddYears(-1) : From.AddMonths(-1));

    public Period After => Of(Until);

    public static Period? Read(string? text) =>
        DateOnly.TryParseExact(text, "yyyy-MM", CultureInfo.InvariantCulture, DateTimeStyles.None, out var month) && month.Year is >= 1900 and < 9000
            ? new Period(month.Year, month.Month)
            : text?.Length == 4 && int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var year) && year is >= 1900 and < 9000
                ? new Period(year, null)
                : null;

    /// <summary>The months that are put beside each other: those of the year as far as it has come, or the month with the one
    /// before it and the same a year earlier.</summary>
    public IReadOnlyList<Period> Spans(DateOnly today)
    {
        if (Month is not null)
            return [this, Before, new Period(Year - 1, Month)];
        var months = Enumerable.Range(1, 12).Select(month => new Period(Year, month)).Where(span => span.From <= today).ToList();
        return months.Count > 0 ? months : [new Period(Year, 1)];
    }

    private Period Of(DateOnly day) => new(day.Year, Month is null ? null : day.Month);
}
