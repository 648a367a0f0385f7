using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;

namespace RepairShop.Services.StripDown;

/// <summary>Removed parts on their way through the wash and back: cleaned, lubricated, and what became of each.</summary>
public sealed class StripItemService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    /// <param name="count">How many of the lot; null for all.</param>
    public Task<Result> AccountAsync(Guid repairId, Guid itemId, int? count, FateFacts facts, CancellationToken cancel) =>
        WithStepAsync(repairId, itemId, async step =>
        {
            var known = await KnownAsync(repairId, facts, count ?? step.Items.Single(lot => lot.Id == itemId).Count, cancel);
            if (!known.IsDone)
                return known.Failure;
            var done = ItemRules.Account(step, itemId, count, known.Value, clock.GetUtcNow(), person.RequiredId);
            return done.IsDone ? Result.Done : done.Failure;
        }, cancel);

    /// <summary>Ticks off everything of a step that is still out as refitted.</summary>
    /// <param name="note">What was done differently; empty when nothing was.</param>
    public Task<Result> RefitStepAsync(Guid repairId, Guid stepId, string note, CancellationToken cancel) =>
        StripWork.InAsync(db, repairId, async () =>
        {
            if (await db.StripSteps.Include(row => row.Items).SingleOrDefaultAsync(row => row.Id == stepId && row.RepairId == repairId, cancel) is not { } step)
                return new StripStepNotFound();
            // Ticked by somebody else a moment ago, or sent twice: it is as this person wants it.
            foreach (var lot in step.Items.Where(lot => lot.Fate == ItemFate.StillOut).ToList())
                ItemRules.Account(step, lot.Id, null, new FateFacts(ItemFate.Refitted, note), clock.GetUtcNow(), person.RequiredId);
            return Result.Done;
        }, cancel);

    /// <summary>A tick too early: every refitted piece of the step is out again.</summary>
    public Task<Result> TakeOutAgainAsync(Guid repairId, Guid stepId, CancellationToken cancel) =>
        StripWork.InAsync(db, repairId, async () =>
        {
            if (await db.StripSteps.Include(row => row.Items).SingleOrDefaultAsync(row => row.Id == stepId && row.RepairId == repairId, cancel) is not { } step)
                return new StripStepNotFound();
            foreach (var lot in step.Items.Where(lot => lot.Fate == ItemFate.Refitted).ToList())
                ItemRules.TakeBack(step, lot.Id);
            return Result.Done;
        }, cancel);

    public Task<Result> TakeBackAsync(Guid repairId, Guid itemId, CancellationToken cancel) =>
        WithStepAsync(repairId, itemId, step => Task.FromResult(ItemRules.TakeBack(step, itemId)), cancel);

    /// <summary>What happened to one lot in the wash.</summary>
    public Task<Result> WashAsync(Guid repairId, Guid itemId, WashFacts facts, CancellationToken cancel) =>
        WithStepAsync(repairId, itemId, async step =>
        {
            if (facts.FindingId is { } finding && !await db.Findings.AnyAsync(row => row.Id == finding && row.RepairId == repairId, cancel))
                return new FindingOfAnotherRepair();
            return ItemRules.Wash(step.Items.Single(lot => lot.Id == itemId), facts);
        }, cancel);

    /// <summary>One bath for many: what the form leaves open stays as it was on each lot.</summary>
    public Task<Result<int>> WashManyAsync(Guid repairId, IReadOnlyCollection<Guid> itemIds, BathFacts bath, CancellationToken cancel) =>
        StripWork.InAsync<int>(db, repairId, async () =>
        {
            var lots = await db.StripItems.Where(row => row.RepairId == repairId && itemIds.Contains(row.Id)).ToListAsync(cancel);
            foreach (var lot in lots)
            {
                if (ItemRules.Wash(lot, bath.Over(WashFacts.Of(lot))) is { Failure: { } refused })
                    return refused;
            }

            return lots.Count;
        }, cancel);

    private Task<Result> WithStepAsync(Guid repairId, Guid itemId, Func<StripStep, Task<Result>> work, CancellationToken cancel) =>
        StripWork.InAsync(db, repairId, async () =>
            await db.StripSteps.Include(row => row.Items)
                .SingleOrDefaultAsync(row => row.RepairId == repairId && row.Items.Any(lot => lot.Id == itemId), cancel) is { } step
                ? await work(step)
                : new StripItemNotFound(), cancel);

    /// <summary>A part that took another's place is named as it stands on the repair, and stands for no more pieces than were fitted.</summary>
    private async Task<Result<FateFacts>> KnownAsync(Guid repairId, FateFacts facts, int count, CancellationToken cancel)
    {
        if (facts is not { Fate: ItemFate.Replaced, PartUseId: { } useId })
            return facts;
        if (await db.PartUses.AsNoTracking().SingleOrDefaultAsync(row => row.Id == useId && row.RepairId == repairId && row.RemovedAt == null, cancel) is not { } use)
            return new ReplacementNotHere();
        var taken = await db.StripItems.Where(row => row.ReplacedByUseId == useId).SumAsync(row => row.Count, cancel);
        // A length of light trap stands for any number of old pieces; a piece stands for one.
        if (use.Unit is "" or "pcs" && taken + count > use.Quantity)
            return new ReplacementUsedUp(use.Text, use.Quantity, taken);
        return facts with { ReplacedBy = use.Text, Provenance = use.Provenance };
    }
}

/// <summary>One bath for many parts; null leaves a thing as it is.</summary>
public sealed record BathFacts(string? CleanedHow, bool? Inspected, Lubrication? Lubrication, string Lubricant, string LubricatedWhere)
{
    public WashFacts Over(WashFacts before)
    {
        var washed = before with { CleanedHow = CleanedHow ?? before.CleanedHow, Inspected = Inspected ?? before.Inspected };
        return Lubrication is { } now ? washed with { Lubrication = now, Lubricant = Lubricant, LubricatedWhere = LubricatedWhere } : washed;
    }
}
