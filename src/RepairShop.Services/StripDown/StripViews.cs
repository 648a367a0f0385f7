using RepairShop.Domain.Parts;
using RepairShop.Domain.StripDown;

namespace RepairShop.Services.StripDown;

/// <summary>The strip-down of one repair, in the order of taking apart.</summary>
public sealed record StripRecord(
    Guid RepairId, IReadOnlyList<StepLine> Steps, IReadOnlyList<TrayLine> Trays, StripProgress Progress,
    IReadOnlyList<OutItem> Out, IReadOnlyList<CellWarning> Warnings, NextEntry Next)
{
    /// <summary>What is not struck out.</summary>
    public IEnumerable<StepLine> Kept => Steps.Where(step => !step.IsStruckOut);

    public TrayLine? TrayOf(Guid id) => Trays.FirstOrDefault(tray => tray.Id == id);
}

/// <summary>What the next entry begins with, from the last one.</summary>
public sealed record NextEntry(HeldBy HeldBy, Guid? TrayId, string Cell);

/// <summary>One step as it is shown.</summary>
/// <param name="No">Its place among the steps that are not struck out; 0 for one that is.</param>
/// <param name="Place">"B3", with the tray's name before it where there are several.</param>
/// <param name="CanUndo">It was corrected, and the correction can be taken back.</param>
public sealed record StepLine(
    Guid Id, int No, StepFacts Facts, string Place, string? Shims, IReadOnlyList<LotLine> Lots, IReadOnlyList<Guid> Photos,
    string? StruckOut, bool IsTightened, bool CanUndo, Guid? SplitFromId, uint Version)
{
    public bool IsStruckOut => StruckOut is not null;

    public bool BacksOffOnly => Facts.Remember.HasFlag(Remember.BackOffOnly);

    /// <summary>Everything it took out is accounted for, and what it backed off is tight.</summary>
    public bool IsDone => BacksOffOnly ? IsTightened : Lots.All(lot => lot.Fate != ItemFate.StillOut);

    public string Name => StripWords.Counted(Facts.Count, Facts.What);
}

/// <summary>Equal pieces of one step of which the same is known.</summary>
public sealed record LotLine(
    Guid Id, string Name, ItemKind Kind, int Count, WashFacts Wash, ItemFate Fate, string FateNote, string ReplacedBy,
    Provenance? Provenance, bool OldGoesBack)
{
    public string Counted => StripWords.Counted(Count, Name);
}

public sealed record TrayLine(Guid Id, string Name, int Rows, int Columns, uint Version, IReadOnlyList<CellThing> Things)
{
    public IEnumerable<CellThing> In(TrayCell cell) => Things.Where(thing => thing.Cell == cell);

    /// <summary>Beside the cells: too large for one.</summary>
    public IEnumerable<CellThing> Beside => Things.Where(thing => thing.Cell is null);
}

/// <summary>What a step laid into a cell.</summary>
/// <param name="Out">How many pieces still lie there, shims among them.</param>
/// <param name="Shims">How many of those are shims.</param>
public sealed record CellThing(TrayCell? Cell, Guid StepId, int StepNo, string What, int Out, int Shims, bool EasilyLost, bool Warned)
{
    /// <summary>How many the eye looks for first: the shims stand behind the part they lay under.</summary>
    public int Number => Out > Shims ? Out - Shims : Shims;

    /// <summary>"lens unit + 2 shims"; where only the shims are left, "shims of lens unit".</summary>
    public string Words => Shims == 0 ? What
        : Out > Shims ? $"{What} + {Shims} {(Shims == 1 ? "shim" : "shims")}"
        : $"{(Shims == 1 ? "shim" : "shims")} of {What}";
}

/// <summary>A part fitted on the repair that may stand for a removed one.</summary>
public sealed record FittedChoice(Guid Id, string Text, Provenance Provenance, decimal Quantity);

/// <summary>What a person typed about a tray.</summary>
/// <param name="Version">0 for a new one.</param>
public sealed record TrayTyped(string Name, int Rows, int Columns, uint Version);

/// <summary>A way of cleaning on the shop's list.</summary>
public sealed record CleaningLine(Guid Id, string Name, SolventCaution Cautions, bool Retired);
