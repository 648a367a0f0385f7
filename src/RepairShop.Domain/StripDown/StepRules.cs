using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.StripDown;

/// <summary>Writes, corrects, splits, joins and strikes out steps. Whatever is done, the lots of a step add up to what it removed.</summary>
public static class StepRules
{
    /// <summary>Writes a new step or corrects one.</summary>
    /// <param name="tray">The tray <see cref="StepFacts.TrayId"/> names; null for none.</param>
    public static Result Write(StripStep step, StepFacts facts, Tray? tray)
    {
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(facts);
        if (step.StruckOutAt is not null)
            return new StepIsStruckOut(step.What);
        if (StepChecks.WhyNot(step, facts, tray) is { } refused)
            return refused;
        // What is only backed off stays in the camera: no cell is taken for it.
        if (facts.Remember.HasFlag(Remember.BackOffOnly))
            tray = null;
        var cell = tray is null ? null : TrayCell.Parse(facts.Cell);
        (step.What, step.Count, step.HeldBy, step.Remember) = (TypedText.OneLine(facts.What), facts.Count, facts.HeldBy, facts.Remember);
        (step.Note, step.ShimPlace) = (TypedText.Lines(facts.Note), TypedText.OneLine(facts.ShimPlace));
        (step.ShimCount, step.ShimMillimetres) = (facts.ShimCount, facts.ShimMillimetres);
        (step.TrayId, step.CellRow, step.CellColumn) = (tray?.Id, cell?.Row, cell?.Column);
        if (!step.BacksOffOnly)
            step.TightenedAt = null;
        Fit(step, ItemKind.Part);
        Fit(step, ItemKind.Shim);
        return Result.Done;
    }

    /// <summary>"That was two different things": some of what is still out goes to a step of its own, right behind this one.</summary>
    public static Result<StripStep> Split(StripStep step, int count, string what, Guid newId)
    {
        ArgumentNullException.ThrowIfNull(step);
        if (step.StruckOutAt is not null)
            return new StepIsStruckOut(step.What);
        if (TypedText.OneLine(what).Length == 0)
            return new WhatCameOffMissing();
        var free = step.BacksOffOnly ? step.Count : Out(step, ItemKind.Part);
        var most = Math.Min(free, step.Count - 1);
        if (count < 1 || count > most)
            return new SplitCountOutOfRange(count, free, most);
        var other = new StripStep
        {
            Id = newId,
            RepairId = step.RepairId,
            What = TypedText.OneLine(what),
            HeldBy = step.HeldBy,
            Remember = step.Remember,
            Note = step.Note,
            TrayId = step.TrayId,
            CellRow = step.CellRow,
            CellColumn = step.CellColumn,
            SplitFromId = step.Id,
            TakenAt = step.TakenAt,
            TakenBy = step.TakenBy,
            Count = count,
        };
        step.Count -= count;
        if (!step.BacksOffOnly)
            MoveLots(step, other, count);
        return other;
    }

    /// <summary>Undoes a split: everything goes back to the step it was split from, and <paramref name="other"/> is to be deleted.</summary>
    public static Result Join(StripStep step, StripStep other)
    {
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(other);
        if (other.SplitFromId != step.Id || step.StruckOutAt is not null || other.StruckOutAt is not null
            || step.BacksOffOnly != other.BacksOffOnly || other.ShimCount > 0)
            return new NotSplitOff();
        step.Count += other.Count;
        foreach (var lot in other.Items)
        {
            if (step.Items.Find(mine => ItemRules.AreOne(mine, lot)) is { } same)
            {
                same.Count += lot.Count;
                continue;
            }

            lot.StepId = step.Id;
            step.Items.Add(lot);
        }

        other.Items.Clear();
        other.Count = 0;
        return Result.Done;
    }

    public static Result StrikeOut(StripStep step, string reason, DateTimeOffset at)
    {
        ArgumentNullException.ThrowIfNull(step);
        if (step.StruckOutAt is not null)
            return new StepIsStruckOut(step.What);
        if (TypedText.OneLine(reason).Length == 0)
            return new StrikeOutReasonMissing();
        if (step.Items.Any(lot => lot.Fate != ItemFate.StillOut))
            return new StrikeOutAccounted(step.What);
        (step.StruckOutAt, step.StruckOutReason) = (at, TypedText.OneLine(reason));
        step.Items.Clear();
        return Result.Done;
    }

    /// <summary>It happened after all: everything it removed is out again.</summary>
    public static void BringBack(StripStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        (step.StruckOutAt, step.StruckOutReason) = (null, "");
        Fit(step, ItemKind.Part);
        Fit(step, ItemKind.Shim);
    }

    private static int Out(StripStep step, ItemKind kind) =>
        step.Items.Where(lot => lot.Kind == kind && lot.Fate == ItemFate.StillOut).Sum(lot => lot.Count);

    /// <summary>Makes the lots of a kind add up; only what is still out grows or shrinks, the last first.</summary>
    private static void Fit(StripStep step, ItemKind kind)
    {
        var lots = step.Items.Where(lot => lot.Kind == kind).ToList();
        var more = step.Removed(kind) - lots.Sum(lot => lot.Count);
        if (more > 0)
            step.Items.Add(new StripItem { RepairId = step.RepairId, StepId = step.Id, Kind = kind, Count = more });
        foreach (var lot in lots.Where(lot => lot.Fate == ItemFate.StillOut).Reverse())
        {
            var off = Math.Clamp(-more, 0, lot.Count);
            lot.Count -= off;
            more += off;
            if (lot.Count == 0)
                step.Items.Remove(lot);
        }

        ItemRules.Tidy(step);
    }

    private static void MoveLots(StripStep step, StripStep other, int count)
    {
        foreach (var lot in step.Items.Where(lot => lot.Kind == ItemKind.Part && lot.Fate == ItemFate.StillOut).Reverse().ToList())
        {
            var take = Math.Min(count, lot.Count);
            if (take == 0)
                continue;
            other.Items.Add(ItemRules.TakeFrom(lot, take, other.Id));
            count -= take;
            if (lot.Count == 0)
                step.Items.Remove(lot);
        }
    }
}
