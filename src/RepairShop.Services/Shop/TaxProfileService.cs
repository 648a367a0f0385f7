using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Shop;

/// <summary>A profile to choose on an invoice or for a customer.</summary>
public sealed record ProfileChoice(Guid Id, string Name, TaxTreatment Treatment, bool IsUsual);

/// <summary>The shop's ways of taxing. A profile is never edited: another is added and the old one retired, so nothing issued moves.</summary>
public sealed class TaxProfileService(ShopDb db, TimeProvider clock)
{
    public Task<List<TaxProfile>> List(CancellationToken ct = default) =>
        db.TaxProfiles.AsNoTracking().OrderBy(row => row.RetiredAt != null).ThenByDescending(row => row.IsUsual).ThenBy(row => row.Name).ToListAsync(ct);

    /// <summary>Those not retired, the usual one first.</summary>
    public async Task<IReadOnlyList<ProfileChoice>> Choices(CancellationToken ct = default) =>
        await db.TaxProfiles.AsNoTracking().Where(row => row.RetiredAt == null).OrderByDescending(row => row.IsUsual).ThenBy(row => row.Name)
            .Select(row => new ProfileChoice(row.Id, row.Name, row.Treatment, row.IsUsual)).ToListAsync(ct);

    public async Task<Result> Add(TaxProfile typed, CancellationToken ct = default)
    {
        (typed.Name, typed.Reason) = (typed.Name.Trim(), typed.Reason.Trim());
        if (typed.Name.Length == 0)
            return new ProfileNameMissing();
        if (typed.ValidUntil < typed.ValidFrom)
            return new ValidUntilBeforeFrom(typed.ValidFrom!.Value, typed.ValidUntil.Value);
        if (typed.Treatment == TaxTreatment.Exempt && typed.Reason.Length == 0)
            return new ExemptionReasonMissing();
        var live = await db.TaxProfiles.Where(row => row.RetiredAt == null).ToListAsync(ct);
        if (live.Any(row => string.Equals(row.Name, typed.Name, StringComparison.OrdinalIgnoreCase)))
            return new ProfileNameTaken(typed.Name);
        if (typed.IsUsual)
            EndUsual(live, typed.ValidFrom);
        db.TaxProfiles.Add(typed);
        return await db.SaveAsync(ct);
    }

    /// <summary>What invoices start with from now on.</summary>
    public async Task<Result> MakeUsual(Guid id, CancellationToken ct = default)
    {
        var live = await db.TaxProfiles.Where(row => row.RetiredAt == null).ToListAsync(ct);
        if (live.All(row => row.Id != id))
            return new ProfileNotFound();
        foreach (var row in live)
            row.IsUsual = row.Id == id;
        return await db.SaveAsync(ct);
    }

    public async Task<Result> Retire(Guid id, CancellationToken ct = default)
    {
        if (await db.TaxProfiles.SingleOrDefaultAsync(row => row.Id == id && row.RetiredAt == null, ct) is not { } profile)
            return new ProfileNotFound();
        (profile.IsUsual, profile.RetiredAt) = (false, clock.GetUtcNow());
        return await db.SaveAsync(ct);
    }

    /// <summary>A usual profile that begins on a day ends the one before the day earlier; without a day it takes over at once.</summary>
    private static void EndUsual(List<TaxProfile> live, DateOnly? from)
    {
        foreach (var before in live.Where(row => row.IsUsual))
        {
            if (from is { } day && !(before.ValidFrom >= day))
                before.ValidUntil = before.ValidUntil < day ? before.ValidUntil : day.AddDays(-1);
            else
                before.IsUsual = false;
        }
    }
}
