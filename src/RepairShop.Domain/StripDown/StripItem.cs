using RepairShop.Domain.Parts;

namespace RepairShop.Domain.StripDown;

/// <summary>A lot of equal things a step took out of the camera, and what became of them. Lots are split when only some of them
/// are dealt with; the counts of a step's lots always add up to what the step removed.</summary>
public sealed class StripItem
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    public Guid StepId { get; set; }

    public ItemKind Kind { get; set; }

    public int Count { get; set; }

    /// <summary>In the words of the shop's own list; empty when not cleaned.</summary>
    public string CleanedHow { get; set; } = "";

    public bool Inspected { get; set; }

    public Guid? FindingId { get; set; }

    public Lubrication Lubrication { get; set; }

    /// <summary>With what.</summary>
    public string Lubricant { get; set; } = "";

    public string LubricatedWhere { get; set; } = "";

    public ItemFate Fate { get; set; }

    public DateTimeOffset? FateAt { get; set; }

    public Guid? FateBy { get; set; }

    /// <summary>Refitted: what was done differently. Returned: which bag. Written off: why.</summary>
    public string FateNote { get; set; } = "";

    /// <summary>The part fitted on this repair that took its place; null when it is only described.</summary>
    public Guid? ReplacedByUseId { get; set; }

    public string ReplacedBy { get; set; } = "";

    public Provenance? ReplacedByProvenance { get; set; }

    /// <summary>The replaced one goes home in the bag.</summary>
    public bool OldGoesBack { get; set; }

    public uint Version { get; set; }
}

public enum ItemKind
{
    Part,
    Shim,
}

/// <summary>Where a removed thing has got to. Only the first is unaccounted for.</summary>
public enum ItemFate
{
    StillOut,
    Refitted,
    Replaced,
    Returned,
    WrittenOff,
}

public enum Lubrication
{
    NotSaid,
    LeftDry,
    Lubricated,
}
