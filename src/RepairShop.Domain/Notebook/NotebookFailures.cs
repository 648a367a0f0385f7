using RepairShop.Domain.Results;

namespace RepairShop.Domain.Notebook;

public sealed record ModelPageNotFound() : NotFound("This page is not in the notebook.");

public sealed record ModelEntryNotFound() : NotFound("This entry is not on the page any more.");

public sealed record ModelVariantNotFound() : NotFound("This variant is not on the page any more.");

public sealed record GuideNotFound() : NotFound("There is no such version of the guide.");

public sealed record ModelUnnamed() : Invalid("Model", "Model is empty: write what stands on the camera, such as Pelter.");

public sealed record ModelHasPage(string Name)
    : Conflict($"The notebook already has a page for {Name}: open that one, or bring it back if it was removed.");

public sealed record EntryUnnamed(EntryKind Kind)
    : Invalid("Title", $"This {EntryWords.Of(Kind)} has no name: write what it is, so that it can be found.");

public sealed record CautionUnnamed() : Invalid("Title", "Choose one of the usual cautions, or write your own in a few words.");

public sealed record LinkNotWeb(string Link)
    : Invalid("Link", $"“{Link}” is not a web address: begin it with https:// or leave it empty.");

public sealed record LimitsCrossed(double Low, double High)
    : Invalid("High", $"The upper limit {High} is below the lower limit {Low}: swap them.");

public sealed record VariantUnnamed() : Invalid("Name", "Name is empty: write what this variant is called here, such as first series.");

public sealed record TraitNotUnderstood(string Line)
    : Invalid("Traits", $"“{Line}” is no trait: write what to look at, a colon, and what it looks like, such as rewind knob: plain.");

public sealed record GuideEmpty() : Conflict("A guide needs at least one step: write what comes off first.");

public sealed record GuideTooLong(int Count)
    : Conflict($"{Count} steps are more than a guide holds: keep it to {GuideRules.MostSteps}.");

/// <summary>A step of the guide breaks one of the record's own rules.</summary>
/// <param name="Index">From 0.</param>
public sealed record GuideStepWrong(int Index, Failure Why)
    : Invalid($"Steps[{Index}].{(Why as Invalid)?.Field ?? "What"}", $"Step {Index + 1}: {Why.Message}");

public sealed record GuideSavedMeanwhile(int Number)
    : Conflict($"Somebody else has saved version {Number} of this guide while you were writing. Look at it, then save again: yours becomes the next version.");

public sealed record NotANotebookFile()
    : Invalid("File", "This is not a notebook file: choose a file that a workshop book has handed out, its name ends with .notebook.json.");

public sealed record NotebookFileOfAnotherVersion(int Version)
    : Invalid("File", $"This file is of version {Version}; this program reads version {NotebookFile.NewestVersion}: ask for it to be handed out by an older program, or bring this one up to date.");

public sealed record NotebookFileTooLarge(long Bytes)
    : Invalid("File", $"This file has {Bytes / 1_000_000m:0.#} MB; the most is {NotebookFileReader.MostBytes / 1_000_000} MB: have it handed out without pictures.");

/// <summary>Something in the file can't be taken.</summary>
/// <param name="Place">Where: entries[3].title.</param>
public sealed record NotebookFileWrong(string Place, string Why)
    : Invalid("File", $"At {Place}: {Why.TrimEnd('.')}. Nothing was taken from the file.");

public sealed record NotebookFileGone() : Conflict("The file is no longer here: choose it again.");

public sealed record NoNotebookFileChosen() : Invalid("File", "No file was chosen: choose one that ends with .notebook.json.");

public sealed record LimitTooLarge(string Limit) : Invalid(Limit, "This number is too large to be a limit: check it.");
