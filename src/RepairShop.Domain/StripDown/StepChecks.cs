using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.StripDown;

/// <summary>Says why a step can't be written as it was typed.</summary>
public static class StepChecks
{
    public const int MostPieces = 999;

    public const double ThickestShimMillimetres = 20;

    /// <param name="tray">The tray <see cref="StepFacts.TrayId"/> names; null for none.</param>
    internal static Failure? WhyNot(StripStep step, StepFacts facts, Tray? tray) =>
        ShapeWhyNot(facts) ?? ShimWhyNot(facts) ?? CellWhyNot(facts, tray) ?? CountWhyNot(step, facts);

    private static Failure? ShapeWhyNot(StepFacts facts)
    {
        if (TypedText.OneLine(facts.What).Length == 0)
            return new WhatCameOffMissing();
        var least = facts.ShimCount > 0 && !facts.Remember.HasFlag(Remember.BackOffOnly) ? 0 : 1;
        return facts.Count < least || facts.Count > MostPieces ? new StripCountOutOfRange(facts.Count) : null;
    }

    private static Failure? ShimWhyNot(StepFacts facts)
    {
        if (facts.ShimCount is < 0 or > MostPieces)
            return new ShimCountOutOfRange(facts.ShimCount);
        if (facts.ShimCount == 0)
            return TypedText.OneLine(facts.ShimPlace).Length > 0 || facts.ShimMillimetres is not null ? new ShimWithoutCount() : null;
        if (facts.Remember.HasFlag(Remember.BackOffOnly))
            return new BackedOffShims();
        if (TypedText.OneLine(facts.ShimPlace).Length == 0)
            return new ShimPlaceMissing();
        return facts.ShimMillimetres is { } thick && !(thick > 0 && thick <= ThickestShimMillimetres) ? new ShimThicknessOutOfRange(thick) : null;
    }

    private static Failure? CellWhyNot(StepFacts facts, Tray? tray)
    {
        if (string.IsNullOrWhiteSpace(facts.Cell))
            return null;
        if (TrayCell.Parse(facts.Cell) is not { } cell)
            return new CellNotUnderstood(facts.Cell.Trim());
        if (tray is null)
            return new CellWithoutTray();
        return tray.Holds(cell) ? null : new CellNotInTray(cell.ToString(), tray.Name, tray.Rows, tray.Columns);
    }

    /// <summary>What is washed or accounted for can't be corrected away.</summary>
    private static Failure? CountWhyNot(StripStep step, StepFacts facts)
    {
        var backsOff = facts.Remember.HasFlag(Remember.BackOffOnly);
        if (backsOff && step.Items.Any(lot => lot.Fate != ItemFate.StillOut || ItemRules.IsWashed(lot)))
            return new BackOffRemoved(step.What);
        foreach (var (kind, wanted) in new[] { (ItemKind.Part, facts.Count), (ItemKind.Shim, facts.ShimCount) })
        {
            var accounted = step.Items.Where(lot => lot.Kind == kind && lot.Fate != ItemFate.StillOut).Sum(lot => lot.Count);
            if (!backsOff && wanted < accounted)
                return new CountBelowAccounted(StripWords.NameOf(step, kind), wanted, accounted);
        }

        return null;
    }
}
