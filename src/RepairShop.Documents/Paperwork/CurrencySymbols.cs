using System.Globalization;

namespace RepairShop.Documents.Paperwork;

/// <summary>What a currency is written with.</summary>
internal static class CurrencySymbols
{
    /// <summary>Symbols that mean one currency everywhere (the root locale of Unicode CLDR; from memory).</summary>
    private static readonly Dictionary<string, string> Unmistakable = new(StringComparer.Ordinal)
    {
        ["EUR"] = "€",
        ["GBP"] = "£",
        ["INR"] = "₹",
        ["ILS"] = "₪",
        ["KRW"] = "₩",
        ["VND"] = "₫",
        ["USD"] = "US$",
        ["CAD"] = "CA$",
        ["AUD"] = "A$",
        ["NZD"] = "NZ$",
        ["BRL"] = "R$",
        ["MXN"] = "MX$",
        ["TWD"] = "NT$",
        ["HKD"] = "HK$",
    };

    /// <summary>The locale's own sign for its own currency; else an unmistakable one; else the ISO code.</summary>
    public static string SymbolOf(string currency, CultureInfo culture)
    {
        if (!culture.IsNeutralCulture && culture.Name.Length > 0 && new RegionInfo(culture.Name).ISOCurrencySymbol == currency)
            return culture.NumberFormat.CurrencySymbol;
        return Unmistakable.GetValueOrDefault(currency, currency);
    }
}
