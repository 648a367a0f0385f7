using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Estimates;

/// <summary>How much of a repair may be invoiced, and everything the customer ever said about it.</summary>
/// <param name="UpTo">With tax; null when nothing was agreed yet.</param>
/// <param name="Consents">Oldest first.</param>
public sealed record CeilingView(decimal? UpTo, IReadOnlyList<ConsentView> Consents);

/// <param name="Consent"></param>
/// <param name="Sentence">Who agreed to what, when and how, as it is printed on the invoice.</param>
public sealed record ConsentView(Consent Consent, string Sentence);

/// <summary>Collects the limit at booking in, answered estimates and further consents of a repair.</summary>
public sealed class CeilingService(ShopDb db)
{
    public async Task<CeilingView> OfAsync(Guid repairId, CancellationToken cancel) => await OfAsync(
        await db.Repairs.AsNoTracking().SingleAsync(row => row.Id == repairId, cancel), await db.Shop.AsNoTracking().SingleAsync(cancel), cancel);

    /// <summary>For those who have read the repair and the shop already.</summary>
    internal async Task<CeilingView> OfAsync(Repair repair, ShopSettings shop, CancellationToken cancel)
    {
        var repairId = repair.Id;
        var answered = await db.Estimates.AsNoTracking().Include(row => row.Lines)
            .Where(row => row.RepairId == repairId && row.Answer != null).ToListAsync(cancel);
        var further = await db.FurtherConsents.AsNoTracking().Where(row => row.RepairId == repairId).ToListAsync(cancel);
        ConsentView[] consents =
        [
            .. AtBooking(repair, shop),
            .. answered.Select(estimate => Of(estimate, shop)),
            .. further.Select(consent => Of(consent, shop)),
        ];
        return new CeilingView(
            Ceiling.Of(consents.Select(view => view.Consent)),
            [.. consents.OrderBy(view => view.Consent.At)]);
    }

    private static IEnumerable<ConsentView> AtBooking(Repair repair, ShopSettings shop)
    {
        if (repair.PreApprovedLimit is not { } limit)
            yield break;
        var at = repair.ConsentAt ?? repair.BookedAt;
        var by = repair.ConsentBy.Length > 0 ? repair.ConsentBy : "The customer";
        yield return new ConsentView(
            new Consent(at, limit), $"{by} approved up to {shop.Money(limit, shop.Currency)} at booking in on {shop.Day(at)}{How(repair.ConsentHow)}.");
    }

    private static ConsentView Of(Estimate estimate, ShopSettings shop)
    {
        var at = estimate.AnsweredAt!.Value;
        var approved = estimate.Answer == EstimateAnswer.Approved;
        var upTo = approved ? estimate.HighGross!.Value : EstimateTotals.StripDownGross(estimate);
        var money = shop.Money(upTo, estimate.Currency);
        return new ConsentView(new Consent(at, upTo), approved
            ? $"{estimate.AnsweredBy} approved estimate revision {estimate.Revision} up to {money} on {shop.Day(at)}{How(estimate.AnsweredHow)}."
            : $"{estimate.AnsweredBy} declined estimate revision {estimate.Revision} on {shop.Day(at)}{How(estimate.AnsweredHow)}; the strip-down charge is {money}.");
    }

    private static ConsentView Of(FurtherConsent consent, ShopSettings shop) => new(
        new Consent(consent.GivenAt, consent.UpTo),
        $"{consent.GivenBy} agreed to up to {shop.Money(consent.UpTo, shop.Currency)} on {shop.Day(consent.GivenAt)}{How(consent.How)}"
        + (consent.Reason.Length > 0 ? $": {consent.Reason.TrimEnd('.')}." : "."));

    private static string How(AnswerWay? how) => how switch
    {
        AnswerWay.InPerson => " in person",
        AnswerWay.Phone => " by phone",
        AnswerWay.Email => " by e-mail",
        AnswerWay.Letter => " by letter",
        AnswerWay.Link => " with the link in the estimate",
        _ => "",
    };
}
