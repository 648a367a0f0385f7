using System.Globalization;

namespace RepairShop.Web.Pages.Ledger;

/// <summary>A month in an address: 2026-11.</summary>
public static class MonthText
{
    public static string Of(DateOnly month) => month.ToString("yyyy-MM", CultureInfo.InvariantCulture);

    /// <summary>Its first day; null for anything else.</summary>
    public static DateOnly? Read(string? text) =>
        DateOnly.TryParseExact(text, "yyyy-MM", CultureInfo.InvariantCulture, DateTimeStyles.None, out var month) && month.Year is > 1900 and < 9000 ? month : null;

    public static string Name(DateOnly month, CultureInfo culture) => month.ToString("MMMM yyyy", culture);
}
