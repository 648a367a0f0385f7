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

    /// <summary>10 → 90 %, where a recording gave it.</summary>
    public double? OpeningMilliseconds { get; init; }

    /// <summary>90 → 10 %, where a recording gave it.</summary>
    public double? ClosingMilliseconds { get; init; }

    /// <summary>What the times mean; null where typed and recorded ones stand together, and on papers older than recordings.</summary>
    public TimeMeaning? Meaning { get; init; }

    /// <summary>What the uncertainty is made of; empty without one, and on papers older than recordings.</summary>
    public IReadOnlyList<UncertaintyTermFacts> Terms { get; init; } = [];

    /// <summary>Null where the shop judges nothing, or one reading is too little to judge by.</summary>
    public LimitVerdict? Verdict { get; init; }
}

/// <summary>What an exposure time is.</summary>
public enum TimeMeaning
{
    /// <summary>What an instrument's display said.</summary>
    Typed,

    /// <summary>From 50 % of the light opening to 50 % closing.</summary>
    HalfWidth,

    /// <summary>The light let through, as time at the fully open level.</summary>
    Effective,
}

/// <summary>One term of an uncertainty.</summary>
/// <param name="Name">scatter, resolution, trigger or other.</param>
/// <param name="StandardSeconds">One standard uncertainty.</param>
public sealed record UncertaintyTermFacts(string Name, double StandardSeconds);

/// <summary>A focal-plane shutter's run over the frame at one marked speed, the mean of its releases.</summary>
public sealed record CurtainRowFacts
{
    public required string MarkedSpeed { get; init; }
    public required bool AfterService { get; init; }
    public required int Count { get; init; }

    /// <summary>Over the whole frame; null where it was not seen.</summary>
    public double? FirstCurtainMilliseconds { get; init; }

    public double? SecondCurtainMilliseconds { get; init; }

    /// <summary>Exposure at each point, first edge first: where it lies in mm from the centre, and its time.</summary>
    public IReadOnlyList<PointFacts> Points { get; init; } = [];

    /// <summary>Largest over smallest exposure, in stops; null where the frame is capped.</summary>
    public double? NonUniformityStops { get; init; }

    public bool IsCapping { get; init; }
}

/// <summary>One point of the frame.</summary>
public sealed record PointFacts(double PositionMm, double Milliseconds, double? SlitMm);

/// <summary>The flash contact at one marked speed, the mean of its releases.</summary>
public sealed record FlashRowFacts
{
    public required string MarkedSpeed { get; init; }
    public required bool AfterService { get; init; }

    /// <summary>X or M; null where nobody said.</summary>
    public string? Contact { get; init; }

    public required int Count { get; init; }

    /// <summary>From contact to fully open: plus when the contact leads.</summary>
    public required double ToFullyOpenMilliseconds { get; init; }

    public double? HoldMilliseconds { get; init; }
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
