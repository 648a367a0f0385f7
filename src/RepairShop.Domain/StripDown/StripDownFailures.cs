using System.Globalization;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.StripDown;

public sealed record StripStepNotFound() : NotFound("This step is not in the record of this repair.");

public sealed record StripItemNotFound() : NotFound("This part is not in the record of this repair.");

public sealed record TrayNotFound() : NotFound("There is no such tray on this repair.");

public sealed record CleaningWayNotFound() : NotFound("There is no such way of cleaning.");

/// <summary>What is called ready is closed: nothing comes out of it and nothing is accounted for behind its back.</summary>
public sealed record RepairIsReady(string Number)
    : Conflict($"Repair {Number} is called ready: take that back before you change its strip-down record.");

public sealed record WhatCameOffMissing() : Invalid("What", "What came off is empty: write it, such as front ring.");

public sealed record StripCountOutOfRange(int Count)
    : Invalid("Count", $"{Count} can't be a count: write how many came off, 1 to {StepChecks.MostPieces}; 0 only where shims alone came off.");

public sealed record ShimCountOutOfRange(int Count)
    : Invalid("ShimCount", $"{Count} can't be a number of shims: write 0 to {StepChecks.MostPieces}.");

public sealed record ShimWithoutCount()
    : Invalid("ShimCount", "A shim's place or thickness is given: write how many shims there are, or empty the other shim fields.");

public sealed record ShimPlaceMissing() : Invalid("ShimPlace", "Write where the shims lay, such as under the left standard.");

public sealed record ShimThicknessOutOfRange(double Millimetres)
    : Invalid("ShimMillimetres", $"{Millimetres.ToString("0.###", CultureInfo.CurrentCulture)} mm can't be a shim: write its measured thickness, above 0 and not above {StepChecks.ThickestShimMillimetres} mm.");

public sealed record BackedOffShims()
    : Invalid("ShimCount", "A screw that is only backed off frees no shims: clear “only back it off”, or empty the shim fields.");

public sealed record BackOffRemoved(string What)
    : Conflict($"{What}: some of it was already washed, refitted or accounted for, so it can't have been backed off only. Put it back to still out first.");

public sealed record CellWithoutTray() : Invalid("Cell", "A cell is given without a tray: choose the tray, or empty the cell.");

public sealed record CellNotUnderstood(string Typed)
    : Invalid("Cell", $"“{Typed}” is not a cell: write the row's letter and the column's number, such as B3.");

public sealed record CellNotInTray(string Cell, string Tray, int Rows, int Columns)
    : Invalid("Cell", $"Tray {Tray} has no cell {Cell}: its last is {new TrayCell(Rows, Columns)}.");

public sealed record CountBelowAccounted(string What, int Wanted, int Accounted)
    : Invalid("Count", $"{Wanted} of “{What}” can't be: {Accounted} are refitted or accounted for already. Put those back to still out first.");

public sealed record SplitCountOutOfRange(int Count, int StillOut, int Most)
    : Invalid("SplitCount", Most < 1
        ? $"There is nothing to split off: a step of its own needs one that is still out, and one must stay ({StillOut} still out)."
        : $"{Count} can't be split off: write 1 to {Most}; only what is still out can go, and one must stay.");

public sealed record NotSplitOff() : Conflict("This step was not split off the one before it any more as it was, so the two can't be joined.");

public sealed record StepIsStruckOut(string What) : Conflict($"“{What}” is struck out: bring it back first.");

public sealed record StrikeOutReasonMissing() : Invalid("Reason", "The reason is empty: write why this step never happened; it is kept.");

public sealed record StrikeOutAccounted(string What)
    : Conflict($"“{What}” can't be struck out: some of it is refitted or accounted for already. Put that back to still out first.");

public sealed record ItemAccounted(string What, ItemFate Fate)
    : Conflict($"“{What}” is {StripWords.Of(Fate)} already: put it back to still out first.");

public sealed record ItemStillOut(string What) : Conflict($"“{What}” is still out, so there is nothing to take back.");

public sealed record ItemCountOutOfRange(int Count, int Most)
    : Invalid("Count", $"{Count} can't be: write 1 to {Most}, as many as there are.");

public sealed record WriteOffReasonMissing() : Invalid("Note", "The reason is empty: write why it does not come back; it is kept and printed.");

public sealed record ReplacementMissing()
    : Invalid("ReplacedBy", "Say what took its place: choose a part fitted on this repair, or write it and where it came from.");

public sealed record ReplacementNotHere() : Invalid("PartUse", "This part is not fitted on this repair any more: choose another, or write what took its place.");

public sealed record ReplacementUsedUp(string Part, decimal Fitted, decimal Taken)
    : Invalid("PartUse", $"“{Part}”: {Fitted:0.###} fitted, {Taken:0.###} of them already stand for other removed parts: fit more, or choose another.");

/// <summary>A part that stands for a removed one is not taken off the repair behind its back.</summary>
public sealed record PartStandsForRemoved(string Part, string Removed)
    : Conflict($"{Part} replaces “{Removed}” in the strip-down record: put that back to still out first.");

public sealed record LubricantMissing() : Invalid("Lubricant", "Lubricated, with what? Write the oil or grease, or choose “left dry”.");

public sealed record NotBackedOff(string What) : Conflict($"“{What}” was removed, not backed off: tick it off as refitted.");

public sealed record TrayNameMissing() : Invalid("Name", "The tray's name is empty: write what stands on it, such as 1.");

public sealed record TrayNameTaken(string Name) : Invalid("Name", $"There is a tray {Name} on this repair already: give this one another name.");

public sealed record TraySizeOutOfRange(string Field, int Size, int Most)
    : Invalid(Field, $"{Size} can't be: a tray has 1 to {Most} {Field.ToLowerInvariant()}.");

public sealed record TrayTooSmall(string Tray, string Cell)
    : Conflict($"Tray {Tray} can't be made smaller: something lies in {Cell}. Move it first.");

public sealed record TrayInUse(string Tray) : Conflict($"Tray {Tray} can't be taken away: steps of the record name its cells. Give those another cell first.");

public sealed record CleaningWayTaken(string Name)
    : Invalid("Name", $"“{Name}” is on the list already: use that one, or bring it back if it is retired.");

public sealed record CleaningWayNameMissing() : Invalid("Name", "Name is empty: write how it is cleaned, such as isopropyl alcohol.");
