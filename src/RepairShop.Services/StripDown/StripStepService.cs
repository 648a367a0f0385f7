using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;

namespace RepairShop.Services.StripDown;

/// <summary>Writes the steps of a strip-down: added, inserted, corrected, split, moved, struck out, and each of these undone.</summary>
public sealed class StripStepService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    private static readonly StripStepNotFound SentTwice = new();

    /// <param name="entry">Made where it was written down; the same entry again is kept once.</param>
    public async Task<Result<Guid>> AddAsync(Guid repairId, StepFacts facts, StepEntry entry, CancellationToken cancel)
    {
        var id = entry.Id;
        var added = await StripWork.InAsync<Guid>(db, repairId, async () =>
        {
            var step = new StripStep { Id = id, RepairId = repairId, TakenAt = clock.GetUtcNow(), TakenBy = person.RequiredId };
            if (await db.StripSteps.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id, cancel) is { } earlier)
            {
                if (earlier.RepairId == repairId && (entry.FromQueue || StepFacts.Of(earlier) == StepFacts.Of(Typed(facts, await TrayAsync(repairId, facts.TrayId, cancel)))))
                    return id;
                // The back button brought the form back, and something else was written in it.
                step.Id = id = Guid.CreateVersion7();
            }

            if (StepRules.Write(step, facts, await TrayAsync(repairId, facts.TrayId, cancel)) is { IsDone: false } refused)
                return refused.Failure;
            var placed = await PlaceAsync(step, entry.After, cancel);
            if (!placed.IsDone)
                return placed.Failure;
            db.StripSteps.Add(step);
            return id;
        }, cancel, ("pk_strip_steps", SentTwice));
        return added.Failure == SentTwice ? id : added;
    }

    /// <param name="version">Of the step as it was when the form was opened.</param>
    public async Task<Result> CorrectAsync(Guid repairId, Guid id, StepFacts facts, uint version, CancellationToken cancel)
    {
        var corrected = await WithStepAsync(repairId, id, async step =>
        {
            db.Entry(step).Property(row => row.Version).OriginalValue = version;
            var before = StepFacts.Of(step);
            var written = StepRules.Write(step, facts, await TrayAsync(repairId, facts.TrayId, cancel));
            if (written.IsDone && before != StepFacts.Of(step))
                step.Before = JsonSerializer.Serialize(before);
            return written;
        }, cancel);
        return corrected.Failure is ChangedMeanwhile ? new ChangedMeanwhile(await DifferencesAsync(repairId, id, facts, cancel)) : corrected;
    }

    /// <summary>Takes the last correction back; once more, and it is there again.</summary>
    public Task<Result> UndoCorrectionAsync(Guid repairId, Guid id, CancellationToken cancel) => WithStepAsync(repairId, id, async step =>
    {
        if (step.Before is null)
            return Result.Done;
        var (now, before) = (StepFacts.Of(step), JsonSerializer.Deserialize<StepFacts>(step.Before)!);
        var written = StepRules.Write(step, before, await TrayAsync(repairId, before.TrayId, cancel));
        step.Before = JsonSerializer.Serialize(now);
        return written;
    }, cancel);

    public async Task<Result<Guid>> SplitAsync(Guid repairId, Guid id, int count, string what, CancellationToken cancel)
    {
        var made = Guid.Empty;
        var split = await WithStepAsync(repairId, id, async step =>
        {
            var other = StepRules.Split(step, count, what, Guid.CreateVersion7());
            if (!other.IsDone)
                return other.Failure;
            made = other.Value.Id;
            db.StripSteps.Add(other.Value);
            return await PlaceAsync(other.Value, step.Id, cancel);
        }, cancel);
        return split.IsDone ? made : split.Failure;
    }

    /// <summary>Undoes a split.</summary>
    public Task<Result> JoinAsync(Guid repairId, Guid id, CancellationToken cancel) => WithStepAsync(repairId, id, async other =>
    {
        if (await FindAsync(repairId, other.SplitFromId ?? Guid.Empty, cancel) is not { } step)
            return new NotSplitOff();
        if (await db.Photos.AnyAsync(row => row.StripStepId == id, cancel))
            return new NotSplitOff();
        var joined = StepRules.Join(step, other);
        if (joined.IsDone)
            db.StripSteps.Remove(other);
        return joined;
    }, cancel);

    /// <param name="after">The step it is to follow; null for the first place.</param>
    public Task<Result> MoveAsync(Guid repairId, Guid id, Guid? after, CancellationToken cancel) =>
        WithStepAsync(repairId, id, step => PlaceAsync(step, after ?? Guid.Empty, cancel), cancel);

    public Task<Result> StrikeOutAsync(Guid repairId, Guid id, string reason, CancellationToken cancel) =>
        WithStepAsync(repairId, id, step => Task.FromResult(StepRules.StrikeOut(step, reason, clock.GetUtcNow())), cancel);

    public Task<Result> BringBackAsync(Guid repairId, Guid id, CancellationToken cancel) => WithStepAsync(repairId, id, step =>
    {
        StepRules.BringBack(step);
        return Task.FromResult(Result.Done);
    }, cancel);

    /// <summary>What was only backed off is set tight again, or not after all.</summary>
    public Task<Result> TightenAsync(Guid repairId, Guid id, bool tight, CancellationToken cancel) => WithStepAsync(repairId, id, step =>
    {
        if (!step.BacksOffOnly)
            return Task.FromResult<Result>(new NotBackedOff(step.What));
        step.TightenedAt = tight ? step.TightenedAt ?? clock.GetUtcNow() : null;
        return Task.FromResult(Result.Done);
    }, cancel);

    private Task<Result> WithStepAsync(Guid repairId, Guid id, Func<StripStep, Task<Result>> work, CancellationToken cancel) =>
        StripWork.InAsync(db, repairId, async () =>
            await FindAsync(repairId, id, cancel) is { } step ? await work(step) : new StripStepNotFound(), cancel);

    private Task<StripStep?> FindAsync(Guid repairId, Guid id, CancellationToken cancel) =>
        db.StripSteps.Include(row => row.Items).SingleOrDefaultAsync(row => row.Id == id && row.RepairId == repairId, cancel);

    private Task<Tray?> TrayAsync(Guid repairId, Guid? id, CancellationToken cancel) => id is null
        ? Task.FromResult<Tray?>(null)
        : db.Trays.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id && row.RepairId == repairId, cancel);

    /// <summary>What is stored now beside what was typed, in the words of the form.</summary>
    private async Task<IReadOnlyList<FieldDifference>> DifferencesAsync(Guid repairId, Guid id, StepFacts facts, CancellationToken cancel)
    {
        var stored = await db.StripSteps.AsNoTracking().SingleAsync(row => row.Id == id, cancel);
        var typed = Typed(facts, await TrayAsync(repairId, facts.TrayId, cancel));
        var trays = await db.Trays.Where(row => row.RepairId == repairId).ToDictionaryAsync(row => row.Id, row => row.Name, cancel);
        string Place(StripStep step) => StripRecords.PlaceOf(step, step.TrayId is { } tray ? trays.GetValueOrDefault(tray) : null);
        return
        [
            .. StepDifferences.Between(StepFacts.Of(stored), StepFacts.Of(typed)).Append(new StepField("Cell", Place(stored), Place(typed)))
                .Where(field => field.Before != field.Now).Select(field => new FieldDifference(field.Name, field.Before, field.Now)),
        ];
    }

    private static StripStep Typed(StepFacts facts, Tray? tray)
    {
        var step = new StripStep();
        StepRules.Write(step, facts, tray);
        return step;
    }

    /// <summary>Finds the step its place behind another. Only when the room between two is used up are the others touched.</summary>
    /// <param name="after">Null for the end, empty for the beginning.</param>
    private async Task<Result> PlaceAsync(StripStep step, Guid? after, CancellationToken cancel)
    {
        if (after is null)
        {
            var last = await db.StripSteps.Where(row => row.RepairId == step.RepairId && row.Id != step.Id).MaxAsync(row => (long?)row.Rank, cancel);
            step.Rank = StripOrder.At(last is { } rank ? [rank] : [], last is null ? 0 : 1)!.Value;
            return Result.Done;
        }

        var others = await db.StripSteps.Where(row => row.RepairId == step.RepairId && row.Id != step.Id)
            .OrderBy(row => row.Rank).ThenBy(row => row.Id).Select(row => new { row.Id, row.Rank }).ToListAsync(cancel);
        var place = after == Guid.Empty ? 0 : others.FindIndex(row => row.Id == after) + 1;
        if (place == 0 && after != Guid.Empty)
            return new StripStepNotFound();
        if (StripOrder.At([.. others.Select(row => row.Rank)], place) is { } free)
        {
            step.Rank = free;
            return Result.Done;
        }

        var ranks = StripOrder.Spread(others.Count + 1);
        var rows = await db.StripSteps.Where(row => row.RepairId == step.RepairId && row.Id != step.Id).ToDictionaryAsync(row => row.Id, cancel);
        for (var i = 0; i < others.Count; i++)
            rows[others[i].Id].Rank = ranks[i < place ? i : i + 1];
        step.Rank = ranks[place];
        return Result.Done;
    }
}

/// <summary>Where and how an entry comes in.</summary>
/// <param name="Id">Made where it was written down; becomes the step's id.</param>
/// <param name="After">The step it follows; null for the end of the record.</param>
/// <param name="FromQueue">Sent, perhaps again, by a device that was cut off: the id alone says whether it is here already.</param>
public sealed record StepEntry(Guid Id, Guid? After = null, bool FromQueue = false);
