using RepairShop.Domain.Results;

namespace RepairShop.Domain.Labour;

/// <summary>Which of two equal wall times is meant in the night the clocks go back.</summary>
public enum WhichHour
{
    NotSaid,
    First,
    Second,
}

/// <summary>A stretch of work, resolved from the workshop's wall clock.</summary>
/// <param name="StartedAt">UTC.</param>
/// <param name="EndedAt">UTC, after <paramref name="StartedAt"/>.</param>
/// <param name="CrossesMidnight">The end lies on the next calendar day.</param>
public sealed record WorkSpan(DateTimeOffset StartedAt, DateTimeOffset EndedAt, bool CrossesMidnight)
{
    /// <summary>Longest stretch taken for one across midnight; above it the two times are more likely swapped.</summary>
    public const int LongestAcrossMidnight = 12 * 60;

    /// <summary>True elapsed minutes: a night with a clock change counts what really passed.</summary>
    public int Minutes => MinutesBetween(StartedAt, EndedAt);

    public static int MinutesBetween(DateTimeOffset from, DateTimeOffset to) =>
        (int)Math.Round((to - from).TotalMinutes, MidpointRounding.AwayFromZero);

    /// <summary>Finds the real times behind a day, a from and a to on the workshop's wall. A to before the from is on the next day.</summary>
    /// <param name="day">The day the work began on.</param>
    /// <param name="from">Wall time of the start.</param>
    /// <param name="to">Wall time of the end.</param>
    /// <param name="zone">The workshop's time zone.</param>
    /// <param name="which">Said when a time came twice.</param>
    public static Result<WorkSpan> Read(DateOnly day, TimeOnly from, TimeOnly to, TimeZoneInfo zone, WhichHour which = WhichHour.NotSaid)
    {
        var start = WallClock.Resolve(day, from, zone, which, "From");
        if (!start.IsDone)
            return start.Failure;
        // The same wall time, or one a little earlier, may still be later in the night the clocks go back.
        if (to <= from && WallClock.Resolve(day, to, zone, WhichHour.Second, "To") is { IsDone: true } again && again.Value > start.Value)
            return new WorkSpan(start.Value, again.Value, false);
        if (to == from)
            return new SpanIsEmpty("To", to);
        var crosses = to < from;
        var end = WallClock.Resolve(crosses ? day.AddDays(1) : day, to, zone, which, "To");
        if (!end.IsDone)
            return end.Failure;
        var span = new WorkSpan(start.Value, end.Value, crosses);
        return crosses && span.Minutes > LongestAcrossMidnight ? new TooLongAcrossMidnight("To", from, to, span.Minutes) : span;
    }
}
