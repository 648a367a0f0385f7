using RepairShop.Measurement.Tools;

namespace RepairShop.Domain.Tools;

/// <summary>A special tool of the workshop: what it is, what it fits, what it measures, and where it lies.</summary>
public sealed class Tool
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public string Name { get; set; } = "";

    public ToolKind Kind { get; set; }

    /// <summary>Which cameras and places, in the shop's words.</summary>
    public string Fits { get; set; } = "";

    public string Place { get; set; } = "";

    public string Notes { get; set; } = "";

    /// <summary>The unit its measures are typed and read in; they are kept in millimetres.</summary>
    public LengthUnit Unit { get; set; }

    /// <summary>Of a ring spanner; all empty for any other tool.</summary>
    public SpannerMeasures Spanner { get; set; } = new();

    /// <summary>Measures of any other tool as text: thread, width, travel.</summary>
    public string OtherMeasures { get; set; } = "";

    public DateTimeOffset CreatedAt { get; set; }

    public DateTimeOffset? RetiredAt { get; set; }

    public uint Version { get; set; }
}

public enum ToolKind
{
    RingSpanner,
    Driver,
    Puller,
    Jig,
    MeasuringTool,
    Other,
}

/// <summary>A place in a camera that a ring spanner has to work in, measured once and kept.</summary>
public sealed class Mount
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    /// <summary>Maker and model.</summary>
    public string Camera { get; set; } = "";

    /// <summary>Which ring: shutter, rear group, mount.</summary>
    public string Name { get; set; } = "";

    public string Notes { get; set; } = "";

    /// <summary>The unit its measures are typed and read in; they are kept in millimetres.</summary>
    public LengthUnit Unit { get; set; }

    public MountMeasures Measures { get; set; } = new();

    public DateTimeOffset CreatedAt { get; set; }

    public DateTimeOffset? RetiredAt { get; set; }

    public uint Version { get; set; }
}
