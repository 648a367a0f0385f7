namespace RepairShop.Domain.Ledger;

/// <summary>One thing that happened to the shop's money or stock. Append-only, balanced, and never in a closed month: the
/// database sees to all three.</summary>
public sealed class JournalEntry
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    /// <summary>The order of writing.</summary>
    public long Number { get; private set; }

    /// <summary>The day it counts for: of issue, of payment, of the movement.</summary>
    public DateOnly Date { get; set; }

    public JournalSource Source { get; set; }

    /// <summary>ISO 4217.</summary>
    public string Currency { get; set; } = "";

    /// <summary>The invoice or credit note it stands on, or that was paid; null for stock.</summary>
    public Guid? InvoiceId { get; set; }

    public Guid? PaymentId { get; set; }

    public Guid? MovementId { get; set; }

    /// <summary>How many lines it has: one more, slipped in later, is refused.</summary>
    public int LineCount { get; set; }

    public DateTimeOffset PostedAt { get; set; }

    public Guid PostedBy { get; set; }

    public List<JournalLine> Lines { get; set; } = [];
}

public enum JournalSource
{
    Invoice,
    CreditNote,
    Payment,
    Stock,
}

/// <summary>One account's part of an entry.</summary>
public sealed class JournalLine
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid EntryId { get; set; }

    /// <summary>The entry's, which the database holds it to: figures of a month read the lines alone.</summary>
    public DateOnly Date { get; set; }

    /// <summary>The entry's.</summary>
    public string Currency { get; set; } = "";

    public int Position { get; set; }

    public LedgerAccount Account { get; set; }

    /// <summary>Plus is debit, minus is credit; never 0.</summary>
    public decimal Amount { get; set; }

    /// <summary>The tax rate revenue and tax belong to; empty where there is none.</summary>
    public string TaxName { get; set; } = "";

    public decimal TaxPercent { get; set; }
}

/// <summary>A month nothing is written into any more, nor into any before it.</summary>
public sealed class ClosedMonth
{
    /// <summary>Its first day.</summary>
    public DateOnly Month { get; set; }

    public DateTimeOffset ClosedAt { get; set; }

    public Guid ClosedBy { get; set; }
}

/// <summary>Parts that came in together at one cost, and what is left of them. Kept by the database.</summary>
public sealed class StockLayer
{
    /// <summary>The movement that brought them in.</summary>
    public Guid MovementId { get; set; }

    public Guid PartId { get; set; }

    public DateTimeOffset At { get; set; }

    public decimal Quantity { get; set; }

    public decimal Value { get; set; }

    public decimal LeftQuantity { get; set; }

    public decimal LeftValue { get; set; }
}

/// <summary>What a movement out of stock took from which layer; below zero where it was put back. Append-only.</summary>
public sealed class StockTaking
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid MovementId { get; set; }

    /// <summary>Null where the book knew of no layer to take from: valued at the movement's own cost.</summary>
    public Guid? LayerId { get; set; }

    public decimal Quantity { get; set; }

    public decimal Value { get; set; }
}
