using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Services.Estimates;

/// <summary>A draft as it stands in the form.</summary>
public sealed record EstimateDraft
{
    public string WhatWasSeen { get; init; } = "";
    public string NeedsConsent { get; init; } = "";
    public decimal StripDownCharge { get; init; }
    public required DateOnly ValidUntil { get; init; }
    public IReadOnlyList<DraftLine> Lines { get; init; } = [];
}

/// <summary>One line in a form for an estimate or an invoice.</summary>
/// <param name="Kind"></param>
/// <param name="Text"></param>
/// <param name="LowQuantity">For invoices the same as <paramref name="HighQuantity"/>.</param>
/// <param name="HighQuantity"></param>
/// <param name="Unit"></param>
/// <param name="UnitPrice"></param>
/// <param name="TaxRate">See <see cref="TaxChoice"/>; empty where the shop charges no tax.</param>
public sealed record DraftLine(
    LineKind Kind, string Text, decimal LowQuantity, decimal HighQuantity, string Unit, decimal UnitPrice, string TaxRate)
{
    /// <summary>On invoices: discount (minus) or charge (plus) on this line.</summary>
    public PriceChange Change { get; init; }
}

/// <summary>A tax rate to choose for a line.</summary>
/// <param name="Key">Name and percent, so that a retired rate on an old draft can still be shown and kept.</param>
/// <param name="Category">UNCL5305 in words.</param>
public sealed record TaxChoice(string Key, string Name, decimal Percent, bool IsDefault, TaxCategory Category)
{
    public static string KeyOf(string name, decimal percent) =>
        name.Length == 0 ? "" : FormattableString.Invariant($"{name}|{percent:0.####}");
}
