namespace RepairShop.Domain.Labour;

/// <summary>Who worked on what, for how long: from the clock, from–to, or a length only.</summary>
public sealed class LabourEntry
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    public Guid WorkerId { get; set; }

    /// <summary>The workshop's calendar day the work began on.</summary>
    public DateOnly WorkDate { get; set; }

    /// <summary>Null for an entry typed as a length.</summary>
    public DateTimeOffset? StartedAt { get; set; }

    /// <summary>Null while the clock runs, or for a length.</summary>
    public DateTimeOffset? EndedAt { get; set; }

    /// <summary>Real elapsed minutes, so a night with a clock change counts its true length; null while the clock runs.</summary>
    public int? Minutes { get; set; }

    public string Activity { get; set; } = "";

    public bool Billable { get; set; } = true;

    public DateTimeOffset CreatedAt { get; set; }

    public DateTimeOffset? RemovedAt { get; set; }

    public uint Version { get; set; }

    public bool IsRunning => StartedAt is not null && EndedAt is null && RemovedAt is null;
}

/// <summary>What an entry said before it was corrected. Append-only.</summary>
public sealed class LabourCorrection
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid EntryId { get; set; }

    public DateOnly OldWorkDate { get; set; }

    public DateTimeOffset? OldStartedAt { get; set; }

    public DateTimeOffset? OldEndedAt { get; set; }

    public int? OldMinutes { get; set; }

    public string OldActivity { get; set; } = "";

    public bool OldBillable { get; set; }

    public bool Removed { get; set; }

    public string Reason { get; set; } = "";

    public Guid By { get; set; }

    public DateTimeOffset At { get; set; }
}
