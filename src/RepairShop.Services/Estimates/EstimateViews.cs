using RepairShop.Domain.Estimates;
using RepairShop.Domain.Repairs;

namespace RepairShop.Services.Estimates;

/// <summary>All that the estimate pages and the sheet's section show of one repair.</summary>
public sealed record EstimateSheet(
    string RepairNumber, string Camera, string Customer, string CustomerEmail, string Currency, bool IsReturned,
    IReadOnlyList<EstimateView> Revisions, CeilingView Ceiling)
{
    public EstimateView? Draft => Revisions.FirstOrDefault(revision => revision.State == EstimateState.Draft);

    public EstimateView? LatestSent => Revisions.LastOrDefault(revision => revision.State != EstimateState.Draft);
}

/// <summary>One revision, readable for ever.</summary>
public sealed record EstimateView(
    int Revision, EstimateState State, string WhatWasSeen, string NeedsConsent, decimal StripDownCharge, DateOnly ValidUntil,
    string Currency, bool PricesIncludeTax, EstimateTotals Totals, IReadOnlyList<EstimateLine> Lines, DateTimeOffset? SentAt,
    string AnsweredBy, DateTimeOffset? AnsweredAt, AnswerWay? AnsweredHow, string AnswerNote, Guid? PaperId, bool HasLiveLink);

/// <summary>The form for a draft: what stands in it, and what can be chosen.</summary>
/// <param name="Version">Null when the draft is only suggested and not kept yet.</param>
public sealed record EstimateForm(
    string RepairNumber, string Camera, int Revision, uint? Version, EstimateDraft Draft, IReadOnlyList<TaxChoice> Taxes,
    bool PricesIncludeTax, string Currency, IReadOnlyList<PartChoice> Parts);

/// <summary>A part from the stock list that can be put on a line.</summary>
public sealed record PartChoice(Guid Id, string Number, string Name, decimal Price, decimal OnHand);
