using System.Globalization;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Invoices;

/// <summary>An amount as a sentence names it: the figure as the reader's culture writes it, then the currency's code, which no
/// two countries share.</summary>
public static class Amount
{
    /// <summary>Sums stay below it: more money than a workshop has, and what the database's columns hold with room.</summary>
    public const decimal Most = 100_000_000_000m;

    /// <summary>Digits after the point: 2 for EUR, 0 for JPY, 3 for KWD (ISO 4217).</summary>
    public static int Digits(string currency) => Currency.MinorUnits(currency);

    public static string Text(decimal amount, string currency) =>
        amount.ToString("N" + Digits(currency).ToString(CultureInfo.InvariantCulture), CultureInfo.CurrentCulture) + " " + currency;
}
