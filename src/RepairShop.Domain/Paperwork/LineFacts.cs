namespace RepairShop.Domain.Paperwork;

/// <summary>Labour and parts stand apart on estimate and invoice (model: 16 CCR 2722 and 2725).</summary>
public enum LineGroup
{
    Labour,
    Part,
    Material,
    Other,

    /// <summary>What a deposit invoice charged already, taken off.</summary>
    Deposit,
}

/// <summary>EN 16931 VAT category, in words. Decides the wording printed under the totals.</summary>
public enum TaxCategory
{
    Standard,
    Zero,
    Exempt,
    ReverseCharge,
    IntraCommunity,
    Export,
    OutsideScope,
}

/// <summary>One line of an invoice or credit note.</summary>
public sealed record LineFacts
{
    public required LineGroup Group { get; init; }
    public required string Text { get; init; }
    public string? PartNumber { get; init; }

    /// <summary>A word: new, new old stock, donor camera, made in the workshop, supplied by the customer.</summary>
    public string? Provenance { get; init; }

    public required decimal Quantity { get; init; }

    /// <summary>h, pc, … as the shop writes it.</summary>
    public required string Unit { get; init; }

    public required decimal UnitPrice { get; init; }
    public required decimal Amount { get; init; }

    /// <summary>Discount (minus) or charge (plus) on this line, in <see cref="Amount"/> already; null for none.</summary>
    public decimal? Change { get; init; }

    /// <summary>Of the line's quantity times price; null for a plain amount.</summary>
    public decimal? ChangePercent { get; init; }

    /// <summary>Null where the shop charges no tax.</summary>
    public decimal? TaxPercent { get; init; }

    /// <summary>Null on papers issued before it was kept, and where the shop charges no tax.</summary>
    public TaxCategory? Category { get; init; }

    /// <summary>The shop's name for the rate.</summary>
    public string? TaxName { get; init; }
}

/// <summary>One line of an estimate: low and high.</summary>
public sealed record EstimateLineFacts
{
    public required LineGroup Group { get; init; }
    public required string Text { get; init; }
    public string? PartNumber { get; init; }
    public string? Provenance { get; init; }
    public required decimal LowQuantity { get; init; }
    public required decimal HighQuantity { get; init; }
    public required string Unit { get; init; }
    public required decimal UnitPrice { get; init; }
    public required decimal LowAmount { get; init; }
    public required decimal HighAmount { get; init; }
    public decimal? TaxPercent { get; init; }
}

/// <summary>A deduction from the sum of lines; the amount is positive, or below zero for a charge.</summary>
public sealed record AllowanceFacts(string Text, decimal Amount, decimal? TaxPercent)
{
    /// <summary>Absolute, of <see cref="Base"/>; null for a plain amount.</summary>
    public decimal? Percent { get; init; }

    /// <summary>The rate's sum of lines it was worked out on.</summary>
    public decimal Base { get; init; }

    public TaxCategory? Category { get; init; }

    public string? TaxName { get; init; }
}

/// <summary>A deposit invoice that is taken off.</summary>
public sealed record DepositFacts(string Number, DateOnly IssueDate);

/// <summary>Where tax was rounded, as the paper says.</summary>
public enum RoundingFacts
{
    PerRate,
    PerLine,
}

/// <summary>Tax at one rate, rounded half away from zero: once per rate (EN 16931 BR-CO-17), or on each line where the paper says so.</summary>
public sealed record TaxTotalFacts
{
    public required string Name { get; init; }
    public required TaxCategory Category { get; init; }
    public required decimal Percent { get; init; }
    public required decimal Base { get; init; }
    public required decimal Tax { get; init; }

    /// <summary>The law's or the shop's own wording for exempt, reverse charge, export; null takes the paper's plain sentence.</summary>
    public string? Reason { get; init; }
}

/// <summary>Money that has come in.</summary>
public sealed record PaymentFacts(DateOnly PaidOn, string Method, string? Reference, decimal Amount);
