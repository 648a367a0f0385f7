using RepairShop.Domain.Invoices;
using RepairShop.Services.Shop;

namespace RepairShop.Web.Forms;

/// <summary>Amounts on pages, in their own currency: an old invoice keeps the one it was written in.</summary>
public static class MoneyText
{
    public static string Money(this ShopFace face, decimal amount, string currency) =>
        currency == face.Currency ? face.Money(amount) : Amount.Text(amount, currency);

    /// <summary>The figure alone, for a column that names its currency.</summary>
    public static string Figure(decimal amount, string currency) =>
        amount.ToString("N" + Amount.Digits(currency), System.Globalization.CultureInfo.CurrentCulture);

    /// <summary>Each line multiplied out, as it stands on the paper.</summary>
    public static IReadOnlyList<decimal> LineAmounts(IEnumerable<PricedLine> lines, string currency) =>
        Totals.Of([.. lines], taxRegistered: false, pricesIncludeTax: false, Amount.Digits(currency)).LineAmounts;

    public static string Quantity(decimal quantity) => quantity.ToString("0.####", System.Globalization.CultureInfo.CurrentCulture);

    public static string Range(decimal low, decimal high) =>
        low == high ? Quantity(low) : $"{Quantity(low)} – {Quantity(high)}";

    public static string Percent(decimal percent) => percent.ToString("0.####", System.Globalization.CultureInfo.CurrentCulture) + " %";
}
