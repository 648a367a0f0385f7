namespace RepairShop.Domain.StripDown;

/// <summary>One step of taking a camera apart. The order of the steps is what matters: by <see cref="Rank"/>, then by id.</summary>
public sealed class StripStep
{
    /// <summary>Made where it is written down, so that the same entry sent twice is kept once.</summary>
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    /// <summary>See <see cref="StripOrder"/>.</summary>
    public long Rank { get; set; }

    /// <summary>What came off, or what was backed off.</summary>
    public string What { get; set; } = "";

    /// <summary>How many came off, without shims; 0 where only shims did.</summary>
    public int Count { get; set; } = 1;

    public HeldBy HeldBy { get; set; }

    public Remember Remember { get; set; }

    public string Note { get; set; } = "";

    /// <summary>Where the shims lay: under the left standard.</summary>
    public string ShimPlace { get; set; } = "";

    public int ShimCount { get; set; }

    /// <summary>All of them together, as measured, in millimetres.</summary>
    public double? ShimMillimetres { get; set; }

    public Guid? TrayId { get; set; }

    public int? CellRow { get; set; }

    public int? CellColumn { get; set; }

    /// <summary>The step this one was split from.</summary>
    public Guid? SplitFromId { get; set; }

    public DateTimeOffset TakenAt { get; set; }

    public Guid TakenBy { get; set; }

    /// <summary>Only backed off, and set tight again.</summary>
    public DateTimeOffset? TightenedAt { get; set; }

    /// <summary>Never happened: kept in the record with the reason, no longer counted.</summary>
    public DateTimeOffset? StruckOutAt { get; set; }

    public string StruckOutReason { get; set; } = "";

    /// <summary>What the step said before it was last corrected, as JSON; null when it never was.</summary>
    public string? Before { get; set; }

    public List<StripItem> Items { get; set; } = [];

    public uint Version { get; set; }

    /// <summary>Turned loose and left in place: nothing was removed.</summary>
    public bool BacksOffOnly => Remember.HasFlag(Remember.BackOffOnly);

    public TrayCell? Cell => CellRow is { } row && CellColumn is { } column ? new TrayCell(row, column) : null;

    /// <summary>How many of a kind this step took out of the camera; the lots of <see cref="Items"/> always add up to it.</summary>
    public int Removed(ItemKind kind) => BacksOffOnly || StruckOutAt is not null ? 0 : kind == ItemKind.Shim ? ShimCount : Count;
}

/// <summary>How it was held.</summary>
public enum HeldBy
{
    Screw,
    Ring,
    Clip,
    Spring,
    Friction,
    Adhesive,
    Solder,

    /// <summary>Nothing held it once the step before was done.</summary>
    Loose,
}

/// <summary>What must be remembered. Several may hold at once.</summary>
[Flags]
public enum Remember
{
    None = 0,

    /// <summary>Its thread or head differs from one that looks the same.</summary>
    LookAlike = 1,

    LeftHandThread = 2,
    Orientation = 4,
    UnderTension = 8,
    EasilyLost = 16,
    NoSpare = 32,
    HandleByEdges = 64,

    /// <summary>Not to be removed, only backed off.</summary>
    BackOffOnly = 128,
}
