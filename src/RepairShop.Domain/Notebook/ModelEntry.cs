using RepairShop.Domain.Paperwork;

namespace RepairShop.Domain.Notebook;

/// <summary>One thing worth knowing about a model: a usual fault, a gauge with its limits, a tool, a torque, a lubricant, a caution.</summary>
public sealed class ModelEntry
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid PageId { get; set; }

    public EntryKind Kind { get; set; }

    /// <summary>Fault: the component, as findings name it. Gauge: what is measured. Otherwise what it is about.</summary>
    public string Title { get; set; } = "";

    public string Text { get; set; } = "";

    /// <summary>A web address, such as where a tool is described; empty for none.</summary>
    public string Link { get; set; } = "";

    /// <summary>Of a caution: the usual one it is; null for one in the shop's own words.</summary>
    public Caution? Caution { get; set; }

    /// <summary>Of a gauge: the unit as written beside the number; <see cref="GaugeLimits.Clock"/> for a place on a clock's face.</summary>
    public string Unit { get; set; } = "";

    /// <summary>Of a gauge: lower limit in <see cref="Unit"/>; on a clock's face hours from twelve, 0 to below 12.</summary>
    public double? Low { get; set; }

    /// <summary>Of a gauge: upper limit in <see cref="Unit"/>; on a clock's face the end of the stretch, clockwise from <see cref="Low"/>.</summary>
    public double? High { get; set; }

    public int Position { get; set; }

    public DateTimeOffset? RemovedAt { get; set; }

    public uint Version { get; set; }
}

public enum EntryKind
{
    Fault,
    Gauge,
    Tool,
    Torque,
    Lubricant,
    Caution,
}
