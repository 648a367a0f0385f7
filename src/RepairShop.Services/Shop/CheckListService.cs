using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Shop;

/// <summary>The shop's own list of function checks. A retired check stays on the repairs it was done on.</summary>
public sealed class CheckListService(ShopDb db, TimeProvider clock)
{
    public Task<List<CheckRow>> List(CancellationToken ct = default) =>
        db.CheckItems
            .OrderBy(check => check.RetiredAt != null).ThenBy(check => check.Position).ThenBy(check => check.Name)
            .Select(check => new CheckRow(check.Id, check.Name, check.Unit, check.RetiredAt != null))
            .ToListAsync(ct);

    public async Task<Result> Add(string name, string unit, CancellationToken ct = default)
    {
        name = name.Trim();
        var names = await db.CheckItems.Select(check => check.Name).ToListAsync(ct);
        if (names.Contains(name, StringComparer.OrdinalIgnoreCase))
            return new CheckNameTaken(name);
        var last = await db.CheckItems.MaxAsync(check => (int?)check.Position, ct) ?? 0;
        db.CheckItems.Add(new CheckItem { Name = name, Unit = unit.Trim(), Position = last + 1 });
        return await db.SaveAsync(ct);
    }

    public async Task<Result> SetRetired(Guid id, bool retired, CancellationToken ct = default)
    {
        if (await db.CheckItems.SingleOrDefaultAsync(check => check.Id == id, ct) is not { } check)
            return new CheckNotFound();
        check.RetiredAt = retired ? check.RetiredAt ?? clock.GetUtcNow() : null;
        return await db.SaveAsync(ct);
    }

    /// <summary>One place up the list.</summary>
    public async Task<Result> MoveUp(Guid id, CancellationToken ct = default)
    {
        var checks = await db.CheckItems.Where(check => check.RetiredAt == null)
            .OrderBy(check => check.Position).ThenBy(check => check.Name).ToListAsync(ct);
        var at = checks.FindIndex(check => check.Id == id);
        if (at < 0)
            return new CheckNotFound();
        if (at > 0)
            (checks[at - 1], checks[at]) = (checks[at], checks[at - 1]);
        for (var place = 0; place < checks.Count; place++)
            checks[place].Position = place + 1;
        return await db.SaveAsync(ct);
    }
}

public sealed record CheckRow(Guid Id, string Name, string Unit, bool Retired);
