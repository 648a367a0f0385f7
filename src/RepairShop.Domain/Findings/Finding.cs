namespace RepairShop.Domain.Findings;

/// <summary>What was found on one component.</summary>
public sealed class Finding
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    public string Component { get; set; } = "";

    public Condition Condition { get; set; }

    public string Text { get; set; } = "";

    /// <summary>What shows that somebody was here before: burred slots, wrong screws, foreign grease.</summary>
    public string EarlierWork { get; set; } = "";

    public string GaugeName { get; set; } = "";

    public double? GaugeValue { get; set; }

    public string GaugeUnit { get; set; } = "";

    public double? GaugeLow { get; set; }

    public double? GaugeHigh { get; set; }

    public string ActionTaken { get; set; } = "";

    /// <summary>Printed on the service record; otherwise for the workshop only.</summary>
    public bool OnServiceRecord { get; set; } = true;

    public int Position { get; set; }

    public DateTimeOffset FoundAt { get; set; }

    public Guid FoundBy { get; set; }

    public DateTimeOffset? RemovedAt { get; set; }

    public uint Version { get; set; }
}

public enum Condition
{
    Sound,
    Worn,
    Damaged,
    Contaminated,
    Missing,
    EarlierRepair,
}
