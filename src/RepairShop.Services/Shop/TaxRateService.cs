using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Shop;

/// <summary>A rate as typed.</summary>
/// <param name="Category">Standard, or zero-rated and exempt at 0 %.</param>
/// <param name="Reason">Why nothing is charged, for an exempt rate.</param>
/// <param name="ValidFrom">With the name of a rate in use: from that day it takes the old one's place.</param>
public sealed record TypedRate(string Name, decimal Percent, TaxCategory Category, string Reason, DateOnly? ValidFrom);

/// <summary>The shop's named tax rates. A rate's percentage is never edited: a new one is added and the old ends or is retired, so nothing issued moves.</summary>
public sealed class TaxRateService(ShopDb db, TimeProvider clock)
{
    public Task<List<TaxRateRow>> List(CancellationToken ct = default) =>
        db.TaxRates
            .OrderBy(rate => rate.RetiredAt != null).ThenByDescending(rate => rate.Percent).ThenBy(rate => rate.Name)
            .Select(rate => new TaxRateRow(
                rate.Id, rate.Name, rate.Percent, rate.Category, rate.Reason, rate.ValidFrom, rate.ValidUntil, rate.IsDefault, rate.RetiredAt))
            .ToListAsync(ct);

    public async Task<Result> Add(TypedRate typed, CancellationToken ct = default)
    {
        if (typed.Percent is < 0 or > 100)
            return new PercentOutOfRange(typed.Percent);
        if (typed.Category == TaxCategory.Exempt && typed.Percent != 0)
            return new ExemptRateAboveZero(typed.Percent);
        if (typed.Category == TaxCategory.Exempt && typed.Reason.Trim().Length == 0)
            return new ExemptionReasonMissing();
        var name = typed.Name.Trim();
        var live = await db.TaxRates.Where(rate => rate.RetiredAt == null).ToListAsync(ct);
        var same = live.Where(rate => string.Equals(rate.Name, name, StringComparison.OrdinalIgnoreCase)).ToList();
        if (same.Any(rate => typed.ValidFrom is not { } day || rate.ValidFrom >= day))
            return new TaxRateNameTaken(name);
        foreach (var before in same.Where(rate => !(rate.ValidUntil < typed.ValidFrom)))
            before.ValidUntil = typed.ValidFrom!.Value.AddDays(-1);
        db.TaxRates.Add(new TaxRate
        {
            Name = same.Count > 0 ? same[0].Name : name,
            Percent = typed.Percent,
            Category = typed.Category == TaxCategory.Exempt ? TaxCategory.Exempt : typed.Percent == 0 ? TaxCategory.Zero : TaxCategory.Standard,
            Reason = typed.Category == TaxCategory.Exempt ? typed.Reason.Trim() : "",
            ValidFrom = typed.ValidFrom,
            IsDefault = same.Any(rate => rate.IsDefault) || !live.Any(rate => rate.IsDefault),
        });
        return await db.SaveAsync(ct);
    }

    /// <summary>The rate new lines start with; its successors and predecessors of the same name are meant too.</summary>
    public async Task<Result> MakeDefault(Guid id, CancellationToken ct = default)
    {
        var rates = await db.TaxRates.Where(rate => rate.RetiredAt == null).ToListAsync(ct);
        if (rates.SingleOrDefault(rate => rate.Id == id) is not { } chosen)
            return new TaxRateNotFound();
        foreach (var rate in rates)
            rate.IsDefault = rate.Name == chosen.Name;
        return await db.SaveAsync(ct);
    }

    public async Task<Result> Retire(Guid id, CancellationToken ct = default)
    {
        if (await db.TaxRates.SingleOrDefaultAsync(rate => rate.Id == id && rate.RetiredAt == null, ct) is not { } rate)
            return new TaxRateNotFound();
        var others = await db.TaxRates.Where(other => other.RetiredAt == null && other.Id != id).ToListAsync(ct);
        if (rate.IsDefault && others.Count > 0 && !others.Any(other => other.IsDefault))
            return new DefaultRateRetired(rate.Name);
        rate.IsDefault = false;
        rate.RetiredAt = clock.GetUtcNow();
        return await db.SaveAsync(ct);
    }
}

public sealed record TaxRateRow(
    Guid Id, string Name, decimal Percent, TaxCategory Category, string Reason, DateOnly? ValidFrom, DateOnly? ValidUntil, bool IsDefault, DateTimeOffset? RetiredAt);
