using RepairShop.Domain.Paperwork;
using RepairShop.Domain.StripDown;

namespace RepairShop.Domain.Notebook;

/// <summary>
/// One model's pages as a file to hand on; DEVELOPERS.md describes it. It holds what the workshop knows of the model and nothing of
/// its work: no customer, no serial, no number of a repair, no count.
/// </summary>
public sealed record NotebookFile
{
    public const string FormatName = "camera-notebook";

    public const int NewestVersion = 1;

    public required string Format { get; init; }
    public required int Version { get; init; }
    public required string Maker { get; init; }
    public required string Model { get; init; }
    public IReadOnlyList<string> MarkedSpeeds { get; init; } = [];
    public string Notes { get; init; } = "";
    public IReadOnlyList<FileVariant> Variants { get; init; } = [];
    public IReadOnlyList<FileEntry> Entries { get; init; } = [];
    public FileGuide? Guide { get; init; }
    public IReadOnlyList<FilePhoto> Photos { get; init; } = [];
}

public sealed record FileVariant
{
    public required string Name { get; init; }
    public IReadOnlyList<FileTrait> Traits { get; init; } = [];
    public string Note { get; init; } = "";
}

public sealed record FileTrait(string Trait, string Value);

public sealed record FileEntry
{
    public required EntryKind Kind { get; init; }
    public string Title { get; init; } = "";
    public string Text { get; init; } = "";
    public string Link { get; init; } = "";
    public Caution? Caution { get; init; }
    public string Unit { get; init; } = "";
    public double? Low { get; init; }
    public double? High { get; init; }
}

public sealed record FileGuide
{
    public string Note { get; init; } = "";
    public required IReadOnlyList<FileStep> Steps { get; init; }
}

public sealed record FileStep
{
    public required string What { get; init; }
    public int Count { get; init; } = 1;
    public required HeldBy HeldBy { get; init; }
    public IReadOnlyList<Remember> Remember { get; init; } = [];
    public string Note { get; init; } = "";
    public string ShimPlace { get; init; } = "";
    public int ShimCount { get; init; }
    public double? ShimMillimetres { get; init; }

    public static FileStep Of(GuideStep step) => new()
    {
        What = step.What,
        Count = step.Count,
        HeldBy = step.HeldBy,
        Remember = [.. StripWords.AllFlags.Where(flag => step.Remember.HasFlag(flag))],
        Note = step.Note,
        ShimPlace = step.ShimPlace,
        ShimCount = step.ShimCount,
        ShimMillimetres = step.ShimMillimetres,
    };

    public GuideStep ToStep() => new()
    {
        What = What,
        Count = Count,
        HeldBy = HeldBy,
        Remember = Remember.Aggregate(StripDown.Remember.None, (all, one) => all | one),
        Note = Note,
        ShimPlace = ShimPlace,
        ShimCount = ShimCount,
        ShimMillimetres = ShimMillimetres,
    };
}

/// <param name="Caption">Below the picture.</param>
/// <param name="Jpeg">The picture's bytes; base64 in the file.</param>
public sealed record FilePhoto(string Caption, byte[] Jpeg);
