namespace RepairShop.Domain.Paperwork;

/// <summary>Labour and parts stand apart on estimate and invoice (model: 16 CCR 2722 and 2725).</summary>
public enum LineGroup
{
    Labour,
    Part,
    Material,
    Other,
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

    /// <summary>Null where the shop charges no tax.</summary>
    public decimal? TaxPercent { get; init; }
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

/// <summary>A deduction from the sum of lines; the amount is positive.</summary>
public sealed record AllowanceFacts(string Text, decimal Amount, decimal? TaxPercent);

/// <summary>Tax at one rate. Rounded once per rate, half away from zero (EN 16931 BR-CO-17).</summary>
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
