using RepairShop.Domain.Parts;

namespace RepairShop.Services.Parts;

/// <summary>What the stock list is asked for.</summary>
/// <param name="Text">Number, name, what it fits, or place; a slip of the finger is forgiven.</param>
/// <param name="ToReorder">Only what has fallen to its reorder level.</param>
/// <param name="Retired">Retired parts instead of the others.</param>
/// <param name="Page">From 1.</param>
public sealed record StockQuestion(string Text, bool ToReorder, bool Retired, int Page);

public sealed record StockList(IReadOnlyList<StockLine> Lines, int Count, int Page, int Pages, string Currency);

public sealed record StockLine(
    Guid Id, string Number, string Name, string Fits, Provenance Provenance, decimal Price, string Place, decimal OnHand, decimal ReorderLevel)
{
    public bool IsToReorder => ReorderLevel > 0 && OnHand <= ReorderLevel;
}

/// <summary>What a person typed about a part.</summary>
/// <param name="Number">Empty for the next free one.</param>
/// <param name="Version">0 for a new part.</param>
public sealed record PartTyped(
    string Number, string Name, string Fits, Provenance Provenance, decimal Cost, decimal Price, string Place, decimal ReorderLevel, uint Version);

public sealed record PartView(
    Guid Id, PartTyped Typed, decimal OnHand, bool Retired, IReadOnlyList<LedgerLine> Ledger, string Currency);

/// <summary>One movement, newest first, with what was on hand after it.</summary>
public sealed record LedgerLine(
    DateTimeOffset At, MovementKind Kind, decimal Quantity, decimal After, decimal UnitCost, string Note, string By, string? RepairNumber);

/// <summary>What a person typed about a part fitted in a repair.</summary>
/// <param name="Part">Number from the stock list, perhaps with the name behind it; empty for a one-off line.</param>
/// <param name="Text">What it is, for a one-off line.</param>
/// <param name="UnitPrice">Null takes the stock list's price.</param>
public sealed record PartUseTyped(
    string Part, string Text, decimal Quantity, string Unit, Provenance Provenance, decimal? UnitCost, decimal? UnitPrice, Guid? FindingId);

public sealed record PartsView(
    IReadOnlyList<PartUseLine> Lines, decimal Total, string Currency, bool PricesIncludeTax,
    IReadOnlyList<string> Suggestions, IReadOnlyList<FindingChoice> Findings);

public sealed record FindingChoice(Guid Id, string Component);

public sealed record PartUseLine(
    Guid Id, Guid? PartId, string PartNumber, string Text, decimal Quantity, string Unit, Provenance Provenance, decimal UnitPrice, string Finding)
{
    public decimal Price => Quantity * UnitPrice;
}
