using RepairShop.Domain.Results;

namespace RepairShop.Domain.Labour;

/// <summary>Between the clock on the workshop's wall and UTC.</summary>
public static class WallClock
{
    // The first and the last day of the calendar have no UTC in every zone; a day more or less is as far from any work.
    private static readonly DateOnly Earliest = DateOnly.MinValue.AddDays(1);
    private static readonly DateOnly Latest = DateOnly.MaxValue.AddDays(-1);

    /// <summary>The moment behind a wall time; a time the zone skipped, or had twice without a word which, is refused.</summary>
    /// <param name="day">Calendar day.</param>
    /// <param name="time">Wall time.</param>
    /// <param name="zone">The workshop's zone.</param>
    /// <param name="which">Which of two, where there are two.</param>
    /// <param name="field">The input's name, for the failure.</param>
    public static Result<DateTimeOffset> Resolve(DateOnly day, TimeOnly time, TimeZoneInfo zone, WhichHour which, string field)
    {
        ArgumentNullException.ThrowIfNull(zone);
        var wall = (day < Earliest ? Earliest : day > Latest ? Latest : day).ToDateTime(time);
        if (zone.IsInvalidTime(wall))
            return new TimeDoesNotExist(field, time, day);
        if (!zone.IsAmbiguousTime(wall))
            return new DateTimeOffset(wall, zone.GetUtcOffset(wall)).ToUniversalTime();
        if (which == WhichHour.NotSaid)
            return new TimeHappenedTwice(field, time, day);
        // Before the clocks go back the offset is the larger one.
        var offsets = zone.GetAmbiguousTimeOffsets(wall);
        return new DateTimeOffset(wall, which == WhichHour.First ? offsets.Max() : offsets.Min()).ToUniversalTime();
    }

    public static DateTimeOffset OnTheWall(DateTimeOffset moment, TimeZoneInfo zone) => TimeZoneInfo.ConvertTime(moment, zone);

    public static DateOnly DayOf(DateTimeOffset moment, TimeZoneInfo zone) => DateOnly.FromDateTime(OnTheWall(moment, zone).DateTime);
}
