using RepairShop.Domain.Labour;
using Xunit;

namespace RepairShop.Domain.Tests.Labour;

public class WorkSpanTests
{
    private static readonly TimeZoneInfo London = TimeZoneInfo.FindSystemTimeZoneById("Europe/London");

    // The UK's clocks: forward on 29 March 2026 at 01:00 UTC, back on 25 October 2026 at 01:00 UTC (last Sundays, The Summer Time Order 2002).
    private static readonly DateOnly Forward = new(2026, 3, 29);
    private static readonly DateOnly Back = new(2026, 10, 25);
    private static readonly DateOnly Plain = new(2026, 11, 24);

    private static TimeOnly At(string time) => TimeOnly.ParseExact(time, "HH:mm");

    [Fact]
    public void A_stretch_within_a_day_is_what_the_wall_says()
    {
        var span = WorkSpan.Read(Plain, At("09:15"), At("11:00"), London).Value!;
        Assert.Equal((105, false), (span.Minutes, span.CrossesMidnight));
        Assert.Equal(new DateTimeOffset(2026, 11, 24, 9, 15, 0, TimeSpan.Zero), span.StartedAt);
    }

    [Theory]
    [InlineData("0001-01-01", "Asia/Tokyo")]
    [InlineData("9999-12-31", "America/New_York")]
    public void A_day_at_the_end_of_the_calendar_is_a_moment_too(string day, string zone)
    {
        var typed = DateOnly.ParseExact(day, "yyyy-MM-dd");
        var at = WallClock.Resolve(typed, At("00:30"), TimeZoneInfo.FindSystemTimeZoneById(zone), WhichHour.NotSaid, "Time");
        Assert.InRange(at.Value.Year, typed.Year, typed.Year);
    }

    [Fact]
    public void An_end_before_the_start_is_on_the_next_day()
    {
        var span = WorkSpan.Read(Plain, At("22:30"), At("00:45"), London).Value!;
        Assert.Equal((135, true), (span.Minutes, span.CrossesMidnight));
        Assert.Equal(new DateTimeOffset(2026, 11, 25, 0, 45, 0, TimeSpan.Zero), span.EndedAt);
    }

    [Fact]
    public void Twelve_hours_across_midnight_are_taken_and_a_minute_more_is_not()
    {
        Assert.Equal(720, WorkSpan.Read(Plain, At("20:00"), At("08:00"), London).Value!.Minutes);
        Assert.Equal(new TooLongAcrossMidnight("To", At("20:00"), At("08:01"), 721), WorkSpan.Read(Plain, At("20:00"), At("08:01"), London).Failure);
    }

    [Fact]
    public void Swapped_times_are_refused_rather_than_taken_for_a_night() =>
        Assert.IsType<TooLongAcrossMidnight>(WorkSpan.Read(Plain, At("11:00"), At("09:00"), London).Failure);

    [Fact]
    public void Equal_times_are_no_work() =>
        Assert.Equal(new SpanIsEmpty("To", At("09:00")), WorkSpan.Read(Plain, At("09:00"), At("09:00"), London).Failure);

    [Fact]
    public void A_stretch_over_the_lost_hour_counts_what_really_passed() =>
        Assert.Equal(60, WorkSpan.Read(Forward, At("00:30"), At("02:30"), London).Value!.Minutes);

    [Fact]
    public void A_time_in_the_lost_hour_is_refused()
    {
        Assert.Equal(new TimeDoesNotExist("From", At("01:30"), Forward), WorkSpan.Read(Forward, At("01:30"), At("03:00"), London).Failure);
        Assert.Equal(new TimeDoesNotExist("To", At("01:00"), Forward), WorkSpan.Read(Forward, At("00:30"), At("01:00"), London).Failure);
        Assert.True(WorkSpan.Read(Forward, At("00:30"), At("02:00"), London).IsDone);
    }

    [Fact]
    public void A_stretch_over_the_hour_that_comes_twice_counts_what_really_passed() =>
        Assert.Equal(180, WorkSpan.Read(Back, At("00:30"), At("02:30"), London).Value!.Minutes);

    [Fact]
    public void A_time_that_came_twice_is_asked_about_and_taken_when_said()
    {
        Assert.Equal(new TimeHappenedTwice("To", At("01:30"), Back), WorkSpan.Read(Back, At("00:30"), At("01:30"), London).Failure);
        Assert.Equal(60, WorkSpan.Read(Back, At("00:30"), At("01:30"), London, WhichHour.First).Value!.Minutes);
        Assert.Equal(120, WorkSpan.Read(Back, At("00:30"), At("01:30"), London, WhichHour.Second).Value!.Minutes);
    }

    [Fact]
    public void From_the_first_hour_back_into_the_second_is_a_short_stretch_and_no_night()
    {
        var span = WorkSpan.Read(Back, At("01:50"), At("01:10"), London, WhichHour.First).Value!;
        Assert.Equal((20, false), (span.Minutes, span.CrossesMidnight));
    }

    [Fact]
    public void The_night_before_the_clocks_go_back_is_an_hour_longer() =>
        Assert.Equal(300, WorkSpan.Read(Back.AddDays(-1), At("23:00"), At("03:00"), London).Value!.Minutes);

    [Fact]
    public void Every_stretch_is_positive_and_no_longer_than_a_day()
    {
        foreach (var day in new[] { Forward, Back, Plain })
            for (var from = 0; from < 1440; from += 17)
                for (var to = 0; to < 1440; to += 13)
                    if (WorkSpan.Read(day, new TimeOnly(from / 60, from % 60), new TimeOnly(to / 60, to % 60), London, WhichHour.First) is { IsDone: true } read)
                        Assert.InRange(read.Value.Minutes, 1, 1500);
    }
}
