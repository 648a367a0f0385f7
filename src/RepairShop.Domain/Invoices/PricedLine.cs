using RepairShop.Domain.Paperwork;

namespace RepairShop.Domain.Invoices;

/// <summary>What the totals of a paper are made from.</summary>
/// <param name="Quantity">Below zero only where a deposit is deducted: a price is never below zero (EN 16931 BR-27).</param>
/// <param name="UnitPrice">With or without tax as the paper's terms say.</param>
/// <param name="TaxName"></param>
/// <param name="TaxPercent"></param>
/// <param name="Category">Null: standard, or zero-rated at 0 %.</param>
/// <param name="Change">Discount (minus) or charge (plus) on this line alone.</param>
/// <param name="IsDeposit">Takes off what a deposit invoice charged already: discounts on the whole paper leave it alone.</param>
public readonly record struct PricedLine(
    decimal Quantity, decimal UnitPrice, string TaxName, decimal TaxPercent,
    TaxCategory? Category = null, PriceChange Change = default, bool IsDeposit = false)
{
    /// <summary>Standard at nothing is zero-rated: EN 16931 BR-S-05 wants a rate above 0 for S.</summary>
    public TaxKey Key => new(
        Category is { } category && !(category == TaxCategory.Standard && TaxPercent == 0) ? category : TaxKey.UsualCategory(TaxPercent), TaxName, TaxPercent);
}

/// <summary>A discount (minus) or a charge (plus): so much of the sum it applies to, or a plain amount.</summary>
/// <param name="Percent">−10 takes a tenth off; null for a plain amount.</param>
/// <param name="Amount">Used where there is no percentage; rounded to the currency's unit.</param>
public readonly record struct PriceChange(decimal? Percent, decimal Amount)
{
    public bool IsNone => Percent is null or 0 && Amount == 0;

    /// <summary>What it comes to on a sum, rounded to the currency's unit.</summary>
    public decimal On(decimal sum, int minorUnits) => Totals.Round(Percent is { } percent ? sum * percent / 100m : Amount, minorUnits);
}

/// <summary>A discount or charge on the whole paper.</summary>
/// <param name="Text">What it is for, printed.</param>
/// <param name="Change"></param>
public sealed record PaperChange(string Text, PriceChange Change);

/// <summary>The part of a discount or charge on the whole paper that falls on one rate (EN 16931 BG-20 and BG-21 know one rate each).</summary>
/// <param name="Text"></param>
/// <param name="Key"></param>
/// <param name="Percent">Null for a plain amount.</param>
/// <param name="Base">The rate's sum of lines.</param>
/// <param name="Amount">Minus for a discount, plus for a charge; with or without tax as the prices.</param>
public sealed record ChangeShare(string Text, TaxKey Key, decimal? Percent, decimal Base, decimal Amount);

/// <summary>What amounts are put together by: EN 16931's VAT category (UNCL5305), the shop's name for the rate, and the rate.</summary>
public readonly record struct TaxKey(TaxCategory Category, string Name, decimal Percent)
{
    public static TaxCategory UsualCategory(decimal percent) => percent == 0 ? TaxCategory.Zero : TaxCategory.Standard;
}

/// <summary>One rate's share of a paper.</summary>
/// <param name="Name"></param>
/// <param name="Percent"></param>
/// <param name="Net">Without tax.</param>
/// <param name="Tax"></param>
public sealed record TaxTotal(string Name, decimal Percent, decimal Net, decimal Tax)
{
    public TaxCategory Category { get; init; } = TaxKey.UsualCategory(Percent);

    public TaxKey Key => new(Category, Name, Percent);
}

/// <summary>Where tax is rounded. The paper says which.</summary>
public enum TaxRounding
{
    /// <summary>Once for each rate, on the rate's sum (EN 16931 BR-CO-17).</summary>
    PerRate,

    /// <summary>On each line; the rate's tax is the sum of the lines' taxes.</summary>
    PerLine,
}

/// <summary>How a paper's figures are worked out.</summary>
/// <param name="TaxRegistered">When false, no line carries tax, whatever its rate says.</param>
/// <param name="PricesIncludeTax">Prices hold the tax already.</param>
/// <param name="MinorUnits">Digits after the point of the currency: 2 for EUR, 0 for JPY, 3 for KWD (ISO 4217).</param>
/// <param name="Rounding"></param>
/// <param name="CashStep">The smallest coin, such as 0.05 for CHF: what is paid is rounded to it; 0 for none.</param>
public sealed record TotalsTerms(
    bool TaxRegistered, bool PricesIncludeTax, int MinorUnits, TaxRounding Rounding = TaxRounding.PerRate, decimal CashStep = 0);
