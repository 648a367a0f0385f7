using RepairShop.Domain.Paperwork;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;

namespace RepairShop.Services.Paperwork;

/// <summary>What the papers say of a strip-down.</summary>
internal static class StripDownFacts
{
    public static IReadOnlyList<StripDownStepFacts> Steps(StripRecord record) => [.. record.Kept.Select(step => new StripDownStepFacts
    {
        Number = step.No,
        Text = step.Name,
        HeldBy = StripWords.Of(step.Facts.HeldBy),
        Cell = CommonFacts.OrNull(step.Place),
        Mind = CommonFacts.OrNull(string.Join(" · ", StripWords.Of(step.Facts.Remember)
            .Concat(step.Shims is { } shims ? [shims] : Array.Empty<string>())
            .Concat(step.Facts.Note.Length > 0 ? [step.Facts.Note.ReplaceLineEndings(" ")] : []))),
        IsBack = step.IsDone,
    })];

    /// <summary>A spring held something, or a part was cleaned in what takes fire.</summary>
    public static IEnumerable<Caution> Cautions(StripRecord record, IReadOnlyList<CleaningLine> ways)
    {
        if (record.Kept.Any(step => step.Facts.HeldBy == HeldBy.Spring || step.Facts.Remember.HasFlag(Remember.UnderTension)))
            yield return Caution.SpringUnderTension;
        var flammable = ways.Where(way => way.Cautions.HasFlag(SolventCaution.Flammable)).Select(way => way.Name).ToHashSet();
        if (record.Kept.SelectMany(step => step.Lots).Any(lot => flammable.Contains(lot.Wash.CleanedHow)))
            yield return Caution.FlammableSolvent;
    }

    public static IReadOnlyList<PartReplacedFacts> Replaced(StripRecord record) => [.. Lots(record, ItemFate.Replaced)
        .Select(lot => new PartReplacedFacts(lot.Name, lot.Count, lot.ReplacedBy, CommonFacts.Words(lot.Provenance!.Value), lot.OldGoesBack))];

    /// <summary>What lies in the bag: parts returned as they came out, and old ones that were replaced.</summary>
    public static IEnumerable<string> Returned(StripRecord record) =>
        Lots(record, ItemFate.Returned).Select(lot => lot.FateNote.Length > 0 ? $"{lot.Counted}, {lot.FateNote}" : lot.Counted)
            .Concat(Lots(record, ItemFate.Replaced).Where(lot => lot.OldGoesBack).Select(lot => $"{lot.Counted}, replaced"));

    public static IReadOnlyList<LeftAloneFacts> NotRefitted(StripRecord record) =>
        [.. Lots(record, ItemFate.WrittenOff).Select(lot => new LeftAloneFacts(lot.Counted, lot.FateNote))];

    public static IReadOnlyList<string> Deviations(StripRecord record) =>
        [.. Lots(record, ItemFate.Refitted).Where(lot => lot.FateNote.Length > 0).Select(lot => $"{lot.Name}: {lot.FateNote}")];

    public static TrayLabelFacts Labels(RepairFile file, StripRecord record, string number, string repairUrl, string issuedBy, DateTimeOffset now) => new()
    {
        PaperNumber = number,
        IssuedAt = now,
        IssuedBy = issuedBy,
        Shop = CommonFacts.Of(file.Shop),
        RepairNumber = file.Repair.Number,
        Camera = CommonFacts.Of(file.Camera),
        StripDownUrl = $"{repairUrl}/strip-down",
        Trays = [.. record.Trays.Select(tray => new TrayFacts(
            tray.Name, tray.Rows, tray.Columns,
            [.. tray.Things.Where(thing => thing is { EasilyLost: true, Out: > 0, Cell: not null }).Select(thing => $"{thing.Cell}").Distinct()]))],
    };

    private static IEnumerable<LotLine> Lots(StripRecord record, ItemFate fate) =>
        record.Kept.SelectMany(step => step.Lots).Where(lot => lot.Fate == fate);
}
