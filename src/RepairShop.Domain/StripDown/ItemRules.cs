using RepairShop.Domain.Parts;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.StripDown;

/// <summary>What became of some pieces of a lot.</summary>
/// <param name="Note">Refitted: what was done differently. Returned: which bag. Written off: why.</param>
/// <param name="PartUseId">A part fitted on this repair that took its place.</param>
public sealed record FateFacts(
    ItemFate Fate, string Note, Guid? PartUseId = null, string ReplacedBy = "", Provenance? Provenance = null, bool OldGoesBack = false);

/// <summary>What happened to a lot in the wash.</summary>
public sealed record WashFacts(
    string CleanedHow, bool Inspected, Guid? FindingId, Lubrication Lubrication, string Lubricant, string LubricatedWhere)
{
    public static WashFacts Of(StripItem lot)
    {
        ArgumentNullException.ThrowIfNull(lot);
        return new(lot.CleanedHow, lot.Inspected, lot.FindingId, lot.Lubrication, lot.Lubricant, lot.LubricatedWhere);
    }
}

/// <summary>Accounts for what was removed: refitted, replaced, returned, written off, or out again.</summary>
public static class ItemRules
{
    /// <param name="step">Whose lot it is, all its lots loaded.</param>
    /// <param name="itemId">The lot.</param>
    /// <param name="count">How many of it; null for all.</param>
    /// <returns>The lot that now has the fate.</returns>
    public static Result<StripItem> Account(StripStep step, Guid itemId, int? count, FateFacts facts, DateTimeOffset at, Guid by)
    {
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(facts);
        if (step.Items.Find(lot => lot.Id == itemId) is not { } item)
            return new StripItemNotFound();
        if (item.Fate != ItemFate.StillOut)
            return new ItemAccounted(StripWords.NameOf(step, item.Kind), item.Fate);
        if (WhyNot(item, count ?? item.Count, facts) is { } refused)
            return refused;
        var lot = Part(step, item, count ?? item.Count);
        (lot.Fate, lot.FateAt, lot.FateBy, lot.FateNote) = (facts.Fate, at, by, TypedText.OneLine(facts.Note));
        if (facts.Fate == ItemFate.Replaced)
            (lot.ReplacedByUseId, lot.ReplacedBy, lot.ReplacedByProvenance, lot.OldGoesBack) =
                (facts.PartUseId, TypedText.OneLine(facts.ReplacedBy), facts.Provenance, facts.OldGoesBack);
        return lot;
    }

    /// <summary>A tick too early: the pieces are out again.</summary>
    public static Result TakeBack(StripStep step, Guid itemId)
    {
        ArgumentNullException.ThrowIfNull(step);
        if (step.Items.Find(lot => lot.Id == itemId) is not { } lot)
            return new StripItemNotFound();
        if (lot.Fate == ItemFate.StillOut)
            return new ItemStillOut(StripWords.NameOf(step, lot.Kind));
        (lot.Fate, lot.FateAt, lot.FateBy, lot.FateNote) = (ItemFate.StillOut, null, null, "");
        (lot.ReplacedByUseId, lot.ReplacedBy, lot.ReplacedByProvenance, lot.OldGoesBack) = (null, "", null, false);
        Tidy(step);
        return Result.Done;
    }

    public static Result Wash(StripItem lot, WashFacts facts)
    {
        ArgumentNullException.ThrowIfNull(lot);
        ArgumentNullException.ThrowIfNull(facts);
        var with = TypedText.OneLine(facts.Lubricant);
        if (facts.Lubrication == Lubrication.Lubricated && with.Length == 0)
            return new LubricantMissing();
        (lot.CleanedHow, lot.Inspected, lot.FindingId) = (TypedText.OneLine(facts.CleanedHow), facts.Inspected, facts.FindingId);
        var oiled = facts.Lubrication == Lubrication.Lubricated;
        (lot.Lubrication, lot.Lubricant, lot.LubricatedWhere) =
            (facts.Lubrication, oiled ? with : "", oiled ? TypedText.OneLine(facts.LubricatedWhere) : "");
        return Result.Done;
    }

    public static bool IsWashed(StripItem lot)
    {
        ArgumentNullException.ThrowIfNull(lot);
        return WashFacts.Of(lot) != new WashFacts("", false, null, Lubrication.NotSaid, "", "");
    }

    /// <summary>Takes some pieces out of a lot, with all that is known of them, into a lot of a step.</summary>
    internal static StripItem TakeFrom(StripItem lot, int count, Guid stepId)
    {
        lot.Count -= count;
        var taken = new StripItem { RepairId = lot.RepairId, StepId = stepId, Kind = lot.Kind, Count = count };
        (taken.CleanedHow, taken.Inspected, taken.FindingId) = (lot.CleanedHow, lot.Inspected, lot.FindingId);
        (taken.Lubrication, taken.Lubricant, taken.LubricatedWhere) = (lot.Lubrication, lot.Lubricant, lot.LubricatedWhere);
        return taken;
    }

    /// <summary>Lots that are still out and of which the same is known are one lot.</summary>
    internal static void Tidy(StripStep step)
    {
        var kept = new List<StripItem>();
        foreach (var lot in step.Items.ToList())
        {
            var same = kept.Find(other => AreOne(other, lot));
            if (same is null)
            {
                kept.Add(lot);
                continue;
            }

            same.Count += lot.Count;
            step.Items.Remove(lot);
        }
    }

    /// <summary>Both are still out and the same is known of them.</summary>
    internal static bool AreOne(StripItem one, StripItem other) =>
        one.Kind == other.Kind && one.Fate == ItemFate.StillOut && other.Fate == ItemFate.StillOut && WashFacts.Of(one) == WashFacts.Of(other);

    private static StripItem Part(StripStep step, StripItem item, int count)
    {
        if (count == item.Count)
            return item;
        var part = TakeFrom(item, count, step.Id);
        step.Items.Add(part);
        return part;
    }

    private static Failure? WhyNot(StripItem item, int count, FateFacts facts)
    {
        if (count < 1 || count > item.Count)
            return new ItemCountOutOfRange(count, item.Count);
        return facts.Fate switch
        {
            ItemFate.StillOut => throw new ArgumentException("Still out is no way to account for a part: take it back instead.", nameof(facts)),
            ItemFate.WrittenOff when TypedText.OneLine(facts.Note).Length == 0 => new WriteOffReasonMissing(),
            ItemFate.Replaced when TypedText.OneLine(facts.ReplacedBy).Length == 0 || facts.Provenance is null => new ReplacementMissing(),
            _ => null,
        };
    }
}
