namespace RepairShop.Domain.Parts;

/// <summary>A part kept in stock. What is on hand comes from <see cref="StockMovement"/>s alone.</summary>
public sealed class Part
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public string Number { get; set; } = "";

    public string Name { get; set; } = "";

    /// <summary>What it fits, in the shop's words.</summary>
    public string Fits { get; set; } = "";

    public Provenance Provenance { get; set; }

    /// <summary>What one cost without tax.</summary>
    public decimal Cost { get; set; }

    /// <summary>What a customer pays for one, with or without tax as the shop's prices are.</summary>
    public decimal Price { get; set; }

    public string Place { get; set; } = "";

    public decimal ReorderLevel { get; set; }

    /// <summary>Kept by the database from the movements; can't go below zero.</summary>
    public decimal OnHand { get; private set; }

    public DateTimeOffset CreatedAt { get; set; }

    public DateTimeOffset? RetiredAt { get; set; }

    public uint Version { get; set; }
}

/// <summary>Where a fitted part comes from.</summary>
public enum Provenance
{
    New,
    NewOldStock,
    Donor,
    MadeHere,
    CustomersOwn,
}

/// <summary>One line of the stock ledger. Append-only: a mistake is put right by another line.</summary>
public sealed class StockMovement
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid PartId { get; set; }

    public MovementKind Kind { get; set; }

    /// <summary>Plus into stock, minus out of it.</summary>
    public decimal Quantity { get; set; }

    public decimal UnitCost { get; set; }

    public Guid? PartUseId { get; set; }

    public string Note { get; set; } = "";

    public DateTimeOffset At { get; set; }

    public Guid By { get; set; }
}

public enum MovementKind
{
    Received,
    Used,
    PutBack,
    CountCorrection,
}

/// <summary>A part fitted in a repair, from stock or a one-off.</summary>
public sealed class PartUse
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    /// <summary>Null for a one-off line.</summary>
    public Guid? PartId { get; set; }

    public Guid? FindingId { get; set; }

    public string Text { get; set; } = "";

    public decimal Quantity { get; set; }

    public string Unit { get; set; } = "";

    public Provenance Provenance { get; set; }

    public decimal UnitCost { get; set; }

    public decimal UnitPrice { get; set; }

    public string TaxName { get; set; } = "";

    public decimal TaxPercent { get; set; }

    public DateTimeOffset UsedAt { get; set; }

    public Guid UsedBy { get; set; }

    /// <summary>Taken off the repair again; stock was put back by a counter-movement.</summary>
    public DateTimeOffset? RemovedAt { get; set; }

    public uint Version { get; set; }
}
