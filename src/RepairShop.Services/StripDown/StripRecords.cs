using RepairShop.Domain.StripDown;

namespace RepairShop.Services.StripDown;

/// <summary>Puts the record together from its rows; asks nothing.</summary>
internal static class StripRecords
{
    /// <param name="steps">In their order, with their lots.</param>
    /// <param name="photos">Photo ids by step.</param>
    public static StripRecord Of(Guid repairId, IReadOnlyList<StripStep> steps, IReadOnlyList<Tray> trays, ILookup<Guid, Guid> photos)
    {
        var names = trays.ToDictionary(tray => tray.Id, tray => tray.Name);
        var number = 0;
        var lines = steps.Select(step => Line(step, step.StruckOutAt is null ? ++number : 0, names, photos)).ToList();
        var warnings = LookAlikes.In(steps);
        return new StripRecord(
            repairId, lines, [.. trays.Select(tray => TrayOf(tray, steps, lines, warnings))], StripProgress.Of(steps),
            [.. steps.SelectMany(step => OutOf(step, names))], warnings, Next(steps, trays));
    }

    /// <summary>Tray and cell as people say them; always with the tray, for whoever is not standing at the bench.</summary>
    public static string PlaceOf(StripStep step, string? tray) => (tray, step.Cell) switch
    {
        (null, _) => "",
        (_, { } cell) => $"tray {tray}, {cell}",
        _ => $"tray {tray}",
    };

    public static IEnumerable<OutItem> OutOf(StripStep step, IReadOnlyDictionary<Guid, string> trays) => step.Items
        .Where(lot => lot.Fate == ItemFate.StillOut)
        .OrderBy(lot => lot.Kind).GroupBy(lot => lot.Kind)
        .Select(kind => new OutItem(
            StripWords.NameOf(step, kind.Key), kind.Sum(lot => lot.Count), PlaceOf(step, step.TrayId is { } id ? trays.GetValueOrDefault(id) : null), step.Remember));

    private static StepLine Line(StripStep step, int number, Dictionary<Guid, string> trays, ILookup<Guid, Guid> photos) => new(
        step.Id, number, StepFacts.Of(step),
        trays.Count > 1 || step.Cell is null ? PlaceOf(step, step.TrayId is { } id ? trays.GetValueOrDefault(id) : null) : $"{step.Cell}",
        StripWords.Shims(step.ShimPlace, step.ShimCount, step.ShimMillimetres),
        [.. step.Items.OrderBy(lot => lot.Kind).ThenBy(lot => lot.Fate).ThenBy(lot => lot.Id).Select(lot => new LotLine(
            lot.Id, StripWords.NameOf(step, lot.Kind), lot.Kind, lot.Count, WashFacts.Of(lot), lot.Fate, lot.FateNote, lot.ReplacedBy,
            lot.ReplacedByProvenance, lot.OldGoesBack))],
        [.. photos[step.Id]], step.StruckOutAt is null ? null : step.StruckOutReason, step.TightenedAt is not null, step.Before is not null,
        step.SplitFromId, step.Version);

    private static TrayLine TrayOf(Tray tray, IReadOnlyList<StripStep> steps, List<StepLine> lines, IReadOnlyList<CellWarning> warnings) => new(
        tray.Id, tray.Name, tray.Rows, tray.Columns, tray.Version,
        [.. steps.Zip(lines).Where(pair => pair.First.TrayId == tray.Id && pair.First is { StruckOutAt: null, BacksOffOnly: false })
            .Select(pair => new CellThing(
                pair.First.Cell, pair.First.Id, pair.Second.No, pair.First.What,
                OutOf(pair.First, ItemKind.Part) + OutOf(pair.First, ItemKind.Shim), OutOf(pair.First, ItemKind.Shim),
                pair.First.Remember.HasFlag(Remember.EasilyLost),
                warnings.Any(warning => warning.TrayId == tray.Id && warning.Cell == pair.First.Cell)))]);

    private static int OutOf(StripStep step, ItemKind kind) =>
        step.Items.Where(lot => lot.Kind == kind && lot.Fate == ItemFate.StillOut).Sum(lot => lot.Count);

    /// <summary>Held as the last one was, and the cell behind the last one that is still free.</summary>
    private static NextEntry Next(IReadOnlyList<StripStep> steps, IReadOnlyList<Tray> trays)
    {
        // Entries may be inserted anywhere: the last one written is the one whose cell lies under the hand.
        var kept = steps.Where(step => step.StruckOutAt is null).OrderBy(step => step.TakenAt).ToList();
        var last = kept.LastOrDefault();
        var inTray = kept.FindLast(step => step.Cell is not null);
        var tray = trays.FirstOrDefault(one => one.Id == (last?.TrayId ?? inTray?.TrayId)) ?? (trays.Count > 0 ? trays[^1] : null);
        if (tray is null)
            return new NextEntry(last?.HeldBy ?? HeldBy.Screw, null, "");
        var taken = kept.Where(step => step.TrayId == tray.Id && step.Cell is not null && step.Items.Any(lot => lot.Fate == ItemFate.StillOut))
            .Select(step => step.Cell!.Value).ToHashSet();
        return new NextEntry(last?.HeldBy ?? HeldBy.Screw, tray.Id, $"{tray.NextFree(taken, inTray?.TrayId == tray.Id ? inTray.Cell : null)}");
    }
}
