using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Estimates;

/// <summary>What may be done to a revision in which state. Each refusal has its name.</summary>
public static class EstimateRules
{
    public static Result MayChange(Estimate estimate) =>
        estimate.SentAt is null ? Result.Done : new EstimateNotDraft(estimate.Revision);

    /// <param name="estimate"></param>
    /// <param name="before">The revision sent before it; null for none.</param>
    /// <param name="today">In the workshop's zone.</param>
    public static Result MaySend(Estimate estimate, Estimate? before, DateOnly today)
    {
        if (estimate.SentAt is not null)
            return new EstimateNotDraft(estimate.Revision);
        if (estimate.Lines.Count == 0)
            return new EstimateHasNoLines();
        if (today > estimate.ValidUntil)
            return new ValidUntilPassed(estimate.ValidUntil);
        return IsSaidAlready(estimate, before, today) ? new EstimateSaysTheSame(before!.Revision) : Result.Done;
    }

    /// <summary>What stands in the customer's hands says the same in every word and figure: the back button brought the form back.</summary>
    public static bool IsSaidAlready(Estimate draft, Estimate? before, DateOnly today) =>
        before?.StateOn(today) is EstimateState.Sent or EstimateState.Approved && Said(draft).Equals(Said(before)) && Lines(draft).SequenceEqual(Lines(before));

    private static object Said(Estimate estimate) => (
        estimate.WhatWasSeen, estimate.NeedsConsent, estimate.StripDownCharge, estimate.ValidUntil, estimate.Currency, estimate.PricesIncludeTax);

    private static IEnumerable<object> Lines(Estimate estimate) => estimate.Lines.OrderBy(line => line.Position).Select(line => (object)(
        line.Kind, line.Text, line.LowQuantity, line.HighQuantity, line.Unit, line.UnitPrice, (line.TaxName, line.TaxPercent, line.TaxCategory)));

    /// <param name="estimate"></param>
    /// <param name="latestSent">The highest revision that has been sent.</param>
    /// <param name="today">In the workshop's zone. The valid-until day itself still counts.</param>
    public static Result MayAnswer(Estimate estimate, int latestSent, DateOnly today) => estimate switch
    {
        { SentAt: null } => new EstimateNotSent(estimate.Revision),
        { Answer: { } answer } => new EstimateAlreadyAnswered(estimate.Revision, answer, estimate.AnsweredBy, estimate.AnsweredAt!.Value),
        _ when estimate.Revision < latestSent => new EstimateSuperseded(estimate.Revision, latestSent),
        _ => today > estimate.ValidUntil ? new EstimateLapsed(estimate.Revision, estimate.ValidUntil) : Result.Done,
    };

    /// <summary>A new revision may follow any sent one, answered or not; only one draft at a time.</summary>
    /// <param name="estimate"></param>
    /// <param name="draft">The revision that is a draft now; null for none.</param>
    public static Result MayRevise(Estimate estimate, int? draft)
    {
        if (draft is { } waiting)
            return new EstimateDraftWaiting(waiting);
        return estimate.SentAt is null ? new EstimateNotSent(estimate.Revision) : Result.Done;
    }

    public static Result MayConsent(decimal upTo, decimal? ceiling, string currency)
    {
        if (upTo is <= 0 or >= Amount.Most)
            return new ConsentAmountOutOfRange(upTo);
        return ceiling is { } approved && upTo <= approved ? new ConsentNotAbove(upTo, approved, currency) : Result.Done;
    }
}
