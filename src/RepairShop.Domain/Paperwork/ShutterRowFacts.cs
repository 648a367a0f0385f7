namespace RepairShop.Domain.Paperwork;

/// <summary>Four states with the guard band w = U (ILAC-G8:09/2019, 4.2.2 and non-binary rule).</summary>
public enum LimitVerdict
{
    Within,
    WithinNotProven,
    OutsideNotProven,
    Outside,
}

/// <summary>One marked speed, before and after.</summary>
public sealed record ShutterRowFacts
{
    /// <summary>As the dial says it: 1/125, ½, 1 s.</summary>
    public required string MarkedSpeed { get; init; }

    /// <summary>What it is held against.</summary>
    public required double ReferenceSeconds { get; init; }

    /// <summary>The workshop's limits in stops, plus is longer; null where the shop judges nothing.</summary>
    public double? LowerLimitStops { get; init; }

    public double? UpperLimitStops { get; init; }
    public SpeedFiguresFacts? AsReceived { get; init; }
    public SpeedFiguresFacts? AfterService { get; init; }
}

/// <summary>What was measured at one marked speed in one session.</summary>
public sealed record SpeedFiguresFacts
{
    public required int Count { get; init; }
    public required double MeanSeconds { get; init; }

    /// <summary>Null with a single reading.</summary>
    public double? DeviationSeconds { get; init; }

    /// <summary>95 %, of the mean; null with a single reading.</summary>
    public double? ExpandedUncertaintySeconds { get; init; }

    /// <summary>log2(mean / reference); plus is longer.</summary>
    public required double ErrorStops { get; init; }

    /// <summary>The expanded uncertainty carried over to stops: half the bar drawn in the chart.</summary>
    public double? UncertaintyStops { get; init; }

    /// <summary>log2(longest / shortest).</summary>
    public double? SpreadStops { get; init; }

    /// <summary>90 → 10 %, where a recording gave it.</summary>
    public double? ClosingMilliseconds { get; init; }

    /// <summary>Null where the shop judges nothing, or one reading is too little to judge by.</summary>
    public LimitVerdict? Verdict { get; init; }
}

/// <summary>How and with what a session was measured.</summary>
public sealed record ShutterSessionFacts
{
    public required DateOnly MeasuredOn { get; init; }
    public required string Instrument { get; init; }

    /// <summary>Typed from an instrument's display, or from recorded signals.</summary>
    public required ReadingSource Source { get; init; }

    public double? RoomCelsius { get; init; }
    public string? MeasuredBy { get; init; }
}

/// <summary>Where readings come from.</summary>
public enum ReadingSource
{
    Typed,
    Recorded,
}
