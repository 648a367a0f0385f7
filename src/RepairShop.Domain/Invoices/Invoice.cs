using RepairShop.Domain.Estimates;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Shop;

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

    /// <summary>The profile it was taxed by; null where the shop's plain settings held. Only a draft looks at it again.</summary>
    public Guid? TaxProfileId { get; set; }

    public TaxTreatment Treatment { get; set; }

    public TaxRounding TaxRounding { get; set; }

    /// <summary>The smallest coin the total is rounded to, 0.05 for cash in CHF; 0 for none.</summary>
    public decimal CashStep { get; set; }

    public string Note { get; set; } = "";

    public decimal Net { get; set; }

    public decimal Tax { get; set; }

    public decimal Gross { get; set; }

    /// <summary>What rounding to the smallest coin added; below zero where it took off.</summary>
    public decimal CashRounding { get; set; }

    /// <summary>Sum of payments, kept by the database.</summary>
    public decimal Paid { get; private set; }

    /// <summary>Sum of issued credit notes against this invoice, kept by the database.</summary>
    public decimal Credited { get; private set; }

    /// <summary>Sum of what was given up, kept by the database.</summary>
    public decimal WrittenOff { get; private set; }

    public List<InvoiceLine> Lines { get; set; } = [];

    /// <summary>Discounts and charges on the whole paper.</summary>
    public List<InvoiceChange> Changes { get; set; } = [];

    /// <summary>What it comes to, rate by rate; kept so that credits can take back exactly what was charged.</summary>
    public List<InvoiceTax> Taxes { get; set; } = [];

    public uint Version { get; set; }

    /// <summary>With tax and cash rounding.</summary>
    public decimal Payable => Gross + CashRounding;

    public Totals Totals() => Invoices.Totals.Of(
        [.. Lines.OrderBy(line => line.Position).Select(line => line.Priced())],
        [.. Changes.OrderBy(change => change.Position).Select(change => change.Priced())],
        new TotalsTerms(TaxRegistered, PricesIncludeTax, Amount.Digits(Currency), TaxRounding, CashStep));

    /// <summary>Rate by rate; worked out from the lines where nothing was kept yet.</summary>
    public IReadOnlyList<TaxTotal> TaxTotals() => Taxes.Count == 0
        ? Totals().Taxes
        : [.. Taxes.OrderByDescending(tax => tax.Percent).ThenBy(tax => tax.Name, StringComparer.Ordinal).ThenBy(tax => tax.Category)
            .Select(tax => new TaxTotal(tax.Name, tax.Percent, tax.Base, tax.Tax) { Category = tax.Category })];

    /// <summary>What is still owed; below zero when money has to go back.</summary>
    public decimal Balance => Kind == InvoiceKind.Invoice ? Payable - Credited - Paid - WrittenOff : 0;
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
    Deposit,
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

    public TaxCategory TaxCategory { get; set; }

    /// <summary>Discount (minus) or charge (plus) on this line, in percent; null for a plain amount.</summary>
    public decimal? ChangePercent { get; set; }

    /// <summary>Discount (minus) or charge (plus) on this line, in money, where there is no percentage.</summary>
    public decimal ChangeAmount { get; set; }

    /// <summary>The deposit invoice this line takes off; null for an ordinary line.</summary>
    public Guid? DepositId { get; set; }

    /// <summary>The line a credit note gives back, in part or whole; null for an amount that belongs to no line.</summary>
    public Guid? CreditsLineId { get; set; }

    public PricedLine Priced() => new(
        Quantity, UnitPrice, TaxName, TaxPercent, TaxCategory, new PriceChange(ChangePercent, ChangeAmount), DepositId is not null);
}

/// <summary>A discount (minus) or charge (plus) on a whole invoice.</summary>
public sealed class InvoiceChange
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid InvoiceId { get; set; }

    public int Position { get; set; }

    public string Text { get; set; } = "";

    /// <summary>Null for a plain amount.</summary>
    public decimal? Percent { get; set; }

    public decimal Amount { get; set; }

    public PaperChange Priced() => new(Text, new PriceChange(Percent, Amount));
}

/// <summary>What one rate comes to on one invoice.</summary>
public sealed class InvoiceTax
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid InvoiceId { get; set; }

    public TaxCategory Category { get; set; }

    public string Name { get; set; } = "";

    public decimal Percent { get; set; }

    /// <summary>Without tax.</summary>
    public decimal Base { get; set; }

    public decimal Tax { get; set; }

    /// <summary>Why there is no tax, as printed; empty where there is.</summary>
    public string Reason { get; set; } = "";

    public TaxKey Key => new(Category, Name, Percent);
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

    /// <summary>The receipt it is a share of; null for money paid for this invoice alone.</summary>
    public Guid? ReceiptId { get; set; }

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

    /// <summary>Out of, or back into, what the workshop holds for the customer: no money moves.</summary>
    CustomerCredit,
}
