using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Shop;

/// <summary>The shop's named tax rates. A rate's percentage is never edited: a new one is added and the old retired, so nothing issued moves.</summary>
public sealed class TaxRateService(ShopDb db, TimeProvider clock)
{
    public Task<List<TaxRateRow>> List(CancellationToken ct = default) =>
        db.TaxRates
            .OrderBy(rate => rate.RetiredAt != null).ThenByDescending(rate => rate.Percent)
            .Select(rate => new TaxRateRow(rate.Id, rate.Name, rate.Percent, rate.IsDefault, rate.RetiredAt))
            .ToListAsync(ct);

    public async Task<Result> Add(string name, decimal percent, CancellationToken ct = default)
    {
        if (percent is < 0 or > 100)
            return new PercentOutOfRange(percent);
        name = name.Trim();
        var names = await db.TaxRates.Where(rate => rate.RetiredAt == null).Select(rate => rate.Name).ToListAsync(ct);
        if (names.Contains(name, StringComparer.OrdinalIgnoreCase))
            return new TaxRateNameTaken(name);
        var first = !await db.TaxRates.AnyAsync(rate => rate.IsDefault, ct);
        db.TaxRates.Add(new TaxRate { Name = name, Percent = percent, IsDefault = first });
        return await db.SaveAsync(ct);
    }

    /// <summary>The rate new lines start with.</summary>
    public async Task<Result> MakeDefault(Guid id, CancellationToken ct = default)
    {
        var rates = await db.TaxRates.Where(rate => rate.RetiredAt == null).ToListAsync(ct);
        if (rates.All(rate => rate.Id != id))
            return new TaxRateNotFound();
        foreach (var rate in rates)
            rate.IsDefault = rate.Id == id;
        return await db.SaveAsync(ct);
    }

    public async Task<Result> Retire(Guid id, CancellationToken ct = default)
    {
        if (await db.TaxRates.SingleOrDefaultAsync(rate => rate.Id == id && rate.RetiredAt == null, ct) is not { } rate)
            return new TaxRateNotFound();
        if (rate.IsDefault && await db.TaxRates.AnyAsync(other => other.RetiredAt == null && other.Id != id, ct))
            return new DefaultRateRetired(rate.Name);
        rate.IsDefault = false;
        rate.RetiredAt = clock.GetUtcNow();
        return await db.SaveAsync(ct);
    }
}

public sealed record TaxRateRow(Guid Id, string Name, decimal Percent, bool IsDefault, DateTimeOffset? RetiredAt);
