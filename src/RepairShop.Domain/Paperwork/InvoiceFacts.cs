namespace RepairShop.Domain.Paperwork;

/// <summary>Invoice, and credit note where <see cref="CreditsNumber"/> is set (then amounts are what is given back, positive).</summary>
public sealed record InvoiceFacts : RepairPaperFacts
{
    public required PartyFacts Customer { get; init; }
    public required DateOnly IssueDate { get; init; }
    public required DateOnly SupplyDate { get; init; }

    /// <summary>The invoice a credit note takes back.</summary>
    public string? CreditsNumber { get; init; }

    public DateOnly? CreditsIssueDate { get; init; }
    public string? CreditReason { get; init; }

    /// <summary>The customer's complaint; 16 CCR 2725 wants it on the bill.</summary>
    public string? Complaint { get; init; }

    /// <summary>Who approved up to what, when and how: frozen sentences, one for each consent (model: 16 CCR 2722).</summary>
    public IReadOnlyList<string> Approvals { get; init; } = [];

    /// <summary>ISO 4217.</summary>
    public required string Currency { get; init; }

    public required IReadOnlyList<LineFacts> Lines { get; init; }
    public IReadOnlyList<AllowanceFacts> Allowances { get; init; } = [];

    /// <summary>True when unit prices and line amounts already hold the tax.</summary>
    public bool PricesIncludeTax { get; init; }

    public required decimal Net { get; init; }
    public IReadOnlyList<TaxTotalFacts> Taxes { get; init; } = [];
    public required decimal TaxTotal { get; init; }
    public required decimal Total { get; init; }

    /// <summary>Null on papers issued before it was kept: those were rounded per rate.</summary>
    public RoundingFacts? Rounding { get; init; }

    /// <summary>What rounding to the smallest coin added; below zero where it took off. In <see cref="Due"/>, not in <see cref="Total"/>.</summary>
    public decimal CashRounding { get; init; }

    /// <summary>Asks for a deposit before the work is done.</summary>
    public bool IsDeposit { get; init; }

    /// <summary>Deposit invoices whose amounts are taken off among the lines.</summary>
    public IReadOnlyList<DepositFacts> Deposits { get; init; } = [];

    public IReadOnlyList<PaymentFacts> Payments { get; init; } = [];
    public required decimal Paid { get; init; }
    public required decimal Due { get; init; }
    public DateOnly? DueDate { get; init; }
    public string? Terms { get; init; }

    /// <summary>What the customer should write on the transfer; the paper's number where null.</summary>
    public string? PaymentReference { get; init; }

    public DateOnly? WarrantyUntil { get; init; }

    /// <summary>Further sentences: warranty, parts returned, what the law of the place wants.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];
}
