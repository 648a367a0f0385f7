using RepairShop.Domain.Estimates;

namespace RepairShop.Domain.Invoices;

/// <summary>An invoice or a credit note: a draft until issued, then unchangeable, which the database enforces.</summary>
public sealed class Invoice
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    public Guid CustomerId { get; set; }

    public InvoiceKind Kind { get; set; }

    public InvoiceBasis Basis { get; set; }

    /// <summary>The invoice that a credit note takes back.</summary>
    public Guid? CreditsId { get; set; }

    /// <summary>Given at issue, in sequence and without gaps; null while a draft.</summary>
    public string? Number { get; set; }

    public DateTimeOffset CreatedAt { get; set; }

    public Guid CreatedBy { get; set; }

    public DateTimeOffset? IssuedAt { get; set; }

    public Guid? IssuedBy { get; set; }

    public DateOnly? IssueDate { get; set; }

    public DateOnly? SupplyDate { get; set; }

    public DateOnly? DueDate { get; set; }

    public string Currency { get; set; } = "";

    public bool TaxRegistered { get; set; }

    public bool PricesIncludeTax { get; set; }

    public string Note { get; set; } = "";

    public decimal Net { get; set; }

    public decimal Tax { get; set; }

    public decimal Gross { get; set; }

    /// <summary>Sum of payments, kept by the database.</summary>
    public decimal Paid { get; private set; }

    /// <summary>Sum of issued credit notes against this invoice, kept by the database.</summary>
    public decimal Credited { get; private set; }

    public List<InvoiceLine> Lines { get; set; } = [];

    public uint Version { get; set; }

    /// <summary>What is still owed; below zero when money has to go back.</summary>
    public decimal Balance => Kind == InvoiceKind.Invoice ? Gross - Credited - Paid : 0;
}

public enum InvoiceKind
{
    Invoice,
    CreditNote,
}

/// <summary>Where an invoice's first lines came from.</summary>
public enum InvoiceBasis
{
    AsEstimated,
    AsWorked,
    StripDownCharge,
    Credit,
}

public sealed class InvoiceLine
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid InvoiceId { get; set; }

    public int Position { get; set; }

    public LineKind Kind { get; set; }

    public string Text { get; set; } = "";

    public decimal Quantity { get; set; }

    public string Unit { get; set; } = "";

    public decimal UnitPrice { get; set; }

    public string TaxName { get; set; } = "";

    public decimal TaxPercent { get; set; }
}

/// <summary>Money received for an invoice, or given back (minus). Append-only.</summary>
public sealed class Payment
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid InvoiceId { get; set; }

    public decimal Amount { get; set; }

    public PaymentMethod Method { get; set; }

    public string Reference { get; set; } = "";

    public DateOnly PaidOn { get; set; }

    public DateTimeOffset RecordedAt { get; set; }

    public Guid RecordedBy { get; set; }

    /// <summary>The payment this one takes back, when it was entered by mistake.</summary>
    public Guid? TakesBackId { get; set; }

    /// <summary>One form, one payment: a double click posts the same key and is refused by the database.</summary>
    public Guid FormKey { get; set; }
}

public enum PaymentMethod
{
    Cash,
    BankTransfer,
    Card,
    Cheque,
    Other,
}
