using System.Globalization;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Shop;

/// <summary>A locale's way of writing, with the shop's currency in it.</summary>
public static class ShopCulture
{
    private static readonly Lazy<Dictionary<string, string>> Signs = new(ReadSigns);

    public static CultureInfo Of(string locale, string currency)
    {
        var culture = (CultureInfo)DayText.Gregorian(CultureInfo.GetCultureInfo(locale)).Clone();
        culture.NumberFormat.CurrencySymbol = Sign(culture, currency);
        culture.NumberFormat.CurrencyDecimalDigits = Currency.MinorUnits(currency);
        return CultureInfo.ReadOnly(culture);
    }

    public static bool IsLocale(string tag) =>
        tag.Length > 0 && CultureInfo.GetCultures(CultureTypes.SpecificCultures).Any(known => known.Name.Equals(tag, StringComparison.OrdinalIgnoreCase));

    private static string Sign(CultureInfo culture, string currency)
    {
        if (Region(culture) is { } own && own.ISOCurrencySymbol == currency)
            return own.CurrencySymbol;
        return Signs.Value.GetValueOrDefault(currency, currency);
    }

    // A sign such as $ belongs to many currencies: only one that is a currency's alone may stand for it abroad, else its code does.
    private static Dictionary<string, string> ReadSigns()
    {
        var signs = CultureInfo.GetCultures(CultureTypes.SpecificCultures)
            .Select(Region).OfType<RegionInfo>()
            .Select(region => (Code: region.ISOCurrencySymbol, Sign: region.CurrencySymbol))
            .Distinct()
            .ToList();
        return signs
            .Where(one => one.Sign.Length == 1 && signs.Where(other => other.Sign == one.Sign).Select(other => other.Code).Distinct().Count() == 1)
            .DistinctBy(one => one.Code)
            .ToDictionary(one => one.Code, one => one.Sign);
    }

    private static RegionInfo? Region(CultureInfo culture) =>
        culture.IsNeutralCulture || culture.LCID == CultureInfo.InvariantCulture.LCID ? null : new RegionInfo(culture.Name);
}
