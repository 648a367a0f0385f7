namespace RepairShop.Domain.Paperwork;

/// <summary>The offer: what was seen, what it may cost, until when it holds and how to answer.</summary>
public sealed record EstimateFacts : RepairPaperFacts
{
    public required int Revision { get; init; }
    public required PartyFacts Customer { get; init; }
    public required DateOnly IssueDate { get; init; }
    public required DateOnly ReceivedOn { get; init; }
    public required string Complaint { get; init; }

    /// <summary>What was seen so far, one point each.</summary>
    public IReadOnlyList<string> Seen { get; init; } = [];

    /// <summary>ISO 4217.</summary>
    public required string Currency { get; init; }

    public required IReadOnlyList<EstimateLineFacts> Lines { get; init; }

    /// <summary>True when line amounts already hold the tax.</summary>
    public bool PricesIncludeTax { get; init; }

    public required decimal LowNet { get; init; }
    public required decimal HighNet { get; init; }
    public IReadOnlyList<TaxTotalFacts> LowTaxes { get; init; } = [];

    /// <summary>Same rates in the same order as <see cref="LowTaxes"/>.</summary>
    public IReadOnlyList<TaxTotalFacts> HighTaxes { get; init; } = [];

    public required decimal LowTotal { get; init; }
    public required decimal HighTotal { get; init; }

    /// <summary>What is charged, tax included, if the offer is declined; null where the shop has no such rule.</summary>
    public decimal? StripDownCharge { get; init; }

    /// <summary>True when the camera must be (or was) taken apart for this offer: prints the warning that it may not be reversible.</summary>
    public bool NeedsStripDown { get; init; }

    /// <summary>Steps that need the customer's own yes, one each.</summary>
    public IReadOnlyList<string> NeedsConsent { get; init; } = [];

    public required DateOnly ValidUntil { get; init; }

    /// <summary>Where to answer; also the QR code. Null when the shop answers by mail and phone only.</summary>
    public string? AnswerUrl { get; init; }

    public IReadOnlyList<Caution> Cautions { get; init; } = [];
    public IReadOnlyList<string> Conditions { get; init; } = [];
}
