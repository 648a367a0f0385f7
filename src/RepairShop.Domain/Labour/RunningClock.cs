using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Labour;

/// <summary>Rules of the clock that runs on the server.</summary>
public static class RunningClock
{
    /// <summary>After this long a clock was probably forgotten, and the person is asked before anything is written.</summary>
    public static readonly TimeSpan ForgottenAfter = TimeSpan.FromHours(12);

    public static bool IsForgotten(DateTimeOffset startedAt, DateTimeOffset now) => now - startedAt > ForgottenAfter;

    /// <summary>Stops at the given moment.</summary>
    /// <param name="entry">A running entry.</param>
    /// <param name="at">Now, or when the person says.</param>
    /// <param name="zone">For the times in a failure's sentence.</param>
    public static Result Stop(LabourEntry entry, DateTimeOffset at, TimeZoneInfo zone)
    {
        ArgumentNullException.ThrowIfNull(entry);
        if (!entry.IsRunning)
            return new NoClockRunning();
        var started = entry.StartedAt!.Value;
        if (at < started)
            return new ClockWentBack(Wall(started, zone), Wall(at, zone));
        entry.EndedAt = at;
        entry.Minutes = WorkSpan.MinutesBetween(started, at);
        return Result.Done;
    }

    /// <summary>Day and time on the workshop's wall, as failures write it.</summary>
    public static string Wall(DateTimeOffset moment, TimeZoneInfo zone)
    {
        var wall = WallClock.OnTheWall(moment, zone);
        return $"{DayText.Write(DateOnly.FromDateTime(wall.DateTime))}, {wall:HH:mm}";
    }
}
