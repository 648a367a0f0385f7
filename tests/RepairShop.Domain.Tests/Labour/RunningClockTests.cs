using RepairShop.Domain.Labour;
using RepairShop.Domain.Shop;
using Xunit;

namespace RepairShop.Domain.Tests.Labour;

public class RunningClockTests
{
    private static readonly DateTimeOffset Nine = new(2026, 11, 24, 9, 0, 0, TimeSpan.Zero);

    private static LabourEntry Running() => new() { StartedAt = Nine };

    [Fact]
    public void Stopping_writes_the_end_and_the_minutes_that_passed()
    {
        var entry = Running();
        Assert.True(RunningClock.Stop(entry, Nine.AddMinutes(44.5), TimeZoneInfo.Utc).IsDone);
        Assert.Equal((Nine.AddMinutes(44.5), 45, false), (entry.EndedAt!.Value, entry.Minutes!.Value, entry.IsRunning));
    }

    [Fact]
    public void A_computer_clock_set_back_is_named_and_nothing_is_written()
    {
        var entry = Running();
        var failure = RunningClock.Stop(entry, Nine.AddMinutes(-1), TimeZoneInfo.Utc).Failure;
        Assert.Equal(new ClockWentBack(OnTheDay(24, "09:00"), OnTheDay(24, "08:59")), failure);
        Assert.True(entry.IsRunning);
    }

    [Fact]
    public void A_clock_that_stands_still_can_not_be_stopped()
    {
        var entry = Running();
        entry.EndedAt = Nine;
        Assert.IsType<NoClockRunning>(RunningClock.Stop(entry, Nine.AddHours(1), TimeZoneInfo.Utc).Failure);
    }

    [Fact]
    public void After_more_than_twelve_hours_a_clock_counts_as_forgotten()
    {
        Assert.False(RunningClock.IsForgotten(Nine, Nine.AddHours(12)));
        Assert.True(RunningClock.IsForgotten(Nine, Nine.AddHours(12).AddTicks(1)));
    }

    private static string OnTheDay(int day, string time) => $"{DayText.Write(new DateOnly(2026, 11, day))}, {time}";
}
