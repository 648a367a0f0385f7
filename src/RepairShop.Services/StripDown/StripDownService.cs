using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Database;

namespace RepairShop.Services.StripDown;

/// <summary>Reads the strip-down of a repair. However many steps it has, it asks the database the same few questions.</summary>
public sealed class StripDownService(ShopDb db)
{
    public async Task<StripRecord> OfAsync(Guid repairId, CancellationToken cancel)
    {
        var trays = await db.Trays.AsNoTracking().Where(row => row.RepairId == repairId).OrderBy(row => row.Position).ThenBy(row => row.Id).ToListAsync(cancel);
        var steps = await StepsAsync(db, repairId, cancel);
        var photos = await db.Photos.Where(row => row.RepairId == repairId && row.StripStepId != null && row.RemovedAt == null)
            .OrderBy(row => row.Position).Select(row => new { StepId = row.StripStepId!.Value, row.Id }).ToListAsync(cancel);
        return StripRecords.Of(repairId, steps, trays, photos.ToLookup(photo => photo.StepId, photo => photo.Id));
    }

    /// <summary>What the shop has written before, most used first, offered while typing.</summary>
    public async Task<IReadOnlyList<string>> WordsAsync(CancellationToken cancel) =>
        await db.StripSteps.Where(row => row.StruckOutAt == null).GroupBy(row => row.What)
            .OrderByDescending(group => group.Count()).ThenBy(group => group.Key).Select(group => group.Key).Take(60).ToListAsync(cancel);

    /// <summary>Oils and greases the shop has written before.</summary>
    public async Task<IReadOnlyList<string>> LubricantsAsync(CancellationToken cancel) =>
        await db.StripItems.Where(row => row.Lubricant != "").GroupBy(row => row.Lubricant)
            .OrderByDescending(group => group.Count()).ThenBy(group => group.Key).Select(group => group.Key).Take(20).ToListAsync(cancel);

    /// <summary>Parts fitted on this repair.</summary>
    public async Task<IReadOnlyList<FittedChoice>> FittedAsync(Guid repairId, CancellationToken cancel) =>
        await db.PartUses.Where(row => row.RepairId == repairId && row.RemovedAt == null).OrderBy(row => row.UsedAt)
            .Select(row => new FittedChoice(row.Id, row.Text, row.Provenance, row.Quantity)).ToListAsync(cancel);

    internal static Task<List<StripStep>> StepsAsync(ShopDb db, Guid repairId, CancellationToken cancel) =>
        db.StripSteps.AsNoTracking().Include(row => row.Items).Where(row => row.RepairId == repairId)
            .OrderBy(row => row.Rank).ThenBy(row => row.Id).ToListAsync(cancel);

    /// <summary>What of a repair is not accounted for, in the order it came out.</summary>
    internal static async Task<IReadOnlyList<OutItem>> OutAsync(ShopDb db, Guid repairId, CancellationToken cancel)
    {
        var steps = await db.StripSteps.AsNoTracking().Include(row => row.Items.Where(lot => lot.Fate == ItemFate.StillOut))
            .Where(row => row.RepairId == repairId && row.Items.Any(lot => lot.Fate == ItemFate.StillOut))
            .OrderBy(row => row.Rank).ThenBy(row => row.Id).ToListAsync(cancel);
        if (steps.Count == 0)
            return [];
        var trays = await db.Trays.Where(row => row.RepairId == repairId).ToDictionaryAsync(row => row.Id, row => row.Name, cancel);
        return [.. steps.SelectMany(step => StripRecords.OutOf(step, trays))];
    }
}
