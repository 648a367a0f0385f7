namespace RepairShop.Domain.Paperwork;

/// <summary>For the bench wall: what to do, where the parts lie, what to measure, what can hurt.</summary>
public sealed record BenchSheetFacts : RepairPaperFacts
{
    public required string CustomerName { get; init; }
    public required DateOnly ReceivedOn { get; init; }
    public DateOnly? WantedBy { get; init; }
    public string? Shelf { get; init; }
    public required string Complaint { get; init; }
    public string? ConditionOnReceipt { get; init; }
    public IReadOnlyList<string> CameWith { get; init; } = [];
    public decimal? LowHours { get; init; }
    public decimal? HighHours { get; init; }

    /// <summary>Nothing may be invoiced above it; in <see cref="Currency"/>.</summary>
    public decimal? ApprovedUpTo { get; init; }

    /// <summary>ISO 4217.</summary>
    public required string Currency { get; init; }

    public required string RepairUrl { get; init; }

    /// <summary>In the order of taking apart; may be empty, then blank rows are printed to write in.</summary>
    public IReadOnlyList<StripDownStepFacts> StripDown { get; init; } = [];

    public IReadOnlyList<ReadingToTakeFacts> Readings { get; init; } = [];

    /// <summary>Names of the function checks to tick.</summary>
    public IReadOnlyList<string> Checks { get; init; } = [];

    public IReadOnlyList<Caution> Cautions { get; init; } = [];

    /// <summary>From the notebook and the repair: traits, tools, what to mind.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];
}

/// <summary>One step of the strip-down.</summary>
public sealed record StripDownStepFacts
{
    public required int Number { get; init; }
    public required string Text { get; init; }

    /// <summary>How it was held: screws, cement, spring, …</summary>
    public string? HeldBy { get; init; }

    public string? Cell { get; init; }

    /// <summary>What to mind.</summary>
    public string? Mind { get; init; }

    public bool IsBack { get; init; }
}

/// <summary>A marked speed to measure, with the times the limits amount to.</summary>
public sealed record ReadingToTakeFacts(string MarkedSpeed, double ReferenceSeconds, double? ShortestSeconds, double? LongestSeconds);
