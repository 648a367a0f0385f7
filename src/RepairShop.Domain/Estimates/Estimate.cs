using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Repairs;

namespace RepairShop.Domain.Estimates;

/// <summary>One revision of the offer for a repair. Once sent it is never changed: a changed offer is the next revision.</summary>
public sealed class Estimate
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    /// <summary>1 for the first offer.</summary>
    public int Revision { get; set; }

    public DateTimeOffset CreatedAt { get; set; }

    public Guid CreatedBy { get; set; }

    /// <summary>What was seen on the bench, in words for the customer.</summary>
    public string WhatWasSeen { get; set; } = "";

    /// <summary>What needs the customer's consent beyond the money: polishing, drilling, replacing a visible part…</summary>
    public string NeedsConsent { get; set; } = "";

    public decimal StripDownCharge { get; set; }

    public DateOnly ValidUntil { get; set; }

    public string Currency { get; set; } = "";

    public bool PricesIncludeTax { get; set; }

    public DateTimeOffset? SentAt { get; set; }

    public Guid? SentBy { get; set; }

    /// <summary>Low total with tax, frozen when sent.</summary>
    public decimal? LowGross { get; set; }

    /// <summary>High total with tax, frozen when sent: nothing above it may be invoiced without further consent.</summary>
    public decimal? HighGross { get; set; }

    public EstimateAnswer? Answer { get; set; }

    public DateTimeOffset? AnsweredAt { get; set; }

    /// <summary>Who gave the answer, in words.</summary>
    public string AnsweredBy { get; set; } = "";

    public AnswerWay? AnsweredHow { get; set; }

    public string AnswerNote { get; set; } = "";

    public List<EstimateLine> Lines { get; set; } = [];

    public uint Version { get; set; }

    /// <summary>Draft until sent; then sent until answered; lapsed when the valid-until day has passed without an answer.</summary>
    public EstimateState StateOn(DateOnly today) => this switch
    {
        { SentAt: null } => EstimateState.Draft,
        { Answer: EstimateAnswer.Approved } => EstimateState.Approved,
        { Answer: EstimateAnswer.Declined } => EstimateState.Declined,
        _ => today > ValidUntil ? EstimateState.Lapsed : EstimateState.Sent,
    };
}

public enum EstimateAnswer
{
    Approved,
    Declined,
}

public enum EstimateState
{
    Draft,
    Sent,
    Approved,
    Declined,
    Lapsed,
}

/// <summary>One line of an offer. Labour has a low and a high quantity in hours; for the rest both are the same.</summary>
public sealed class EstimateLine
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid EstimateId { get; set; }

    public int Position { get; set; }

    public LineKind Kind { get; set; }

    public string Text { get; set; } = "";

    public decimal LowQuantity { get; set; }

    public decimal HighQuantity { get; set; }

    /// <summary>h, pcs, or the shop's own word.</summary>
    public string Unit { get; set; } = "";

    public decimal UnitPrice { get; set; }

    public string TaxName { get; set; } = "";

    public decimal TaxPercent { get; set; }

    public TaxCategory TaxCategory { get; set; }
}

/// <summary>Labour and parts are told apart on every paper.</summary>
public enum LineKind
{
    Labour,
    Part,
    Material,
    Other,
}

/// <summary>Consent to spend more than was approved, given without a new estimate. Kept for ever.</summary>
public sealed class FurtherConsent
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    /// <summary>The new limit with tax, not the difference.</summary>
    public decimal UpTo { get; set; }

    public string GivenBy { get; set; } = "";

    public AnswerWay How { get; set; }

    public string Reason { get; set; } = "";

    public DateTimeOffset GivenAt { get; set; }

    public Guid RecordedBy { get; set; }
}

/// <summary>A customer's private link to answer one estimate: unguessable, expires, can be revoked. Only its hash is kept.</summary>
public sealed class AnswerLink
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid EstimateId { get; set; }

    /// <summary>SHA-256, lower-case hex, of the secret in the link.</summary>
    public string TokenHash { get; set; } = "";

    public DateTimeOffset CreatedAt { get; set; }

    public DateTimeOffset ExpiresAt { get; set; }

    public DateTimeOffset? RevokedAt { get; set; }
}
