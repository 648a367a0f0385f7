using System.Globalization;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Labour;
using RepairShop.Testing;
using Xunit;

namespace RepairShop.Services.Tests.Labour;

public sealed class ClockTests(PostgresServer server)
{
    private static CancellationToken Ct => Workshop.Cancel;

    private static Task<Result<ClockStarted>> Start(Workshop shop, Repair repair, Guid? by = null) =>
        shop.Do<ClockService, Result<ClockStarted>>(clock => clock.StartAsync(repair.Id, "Cleaning", true, Ct), by);

    private static Task<Result<ClockStopped>> Stop(Workshop shop) => shop.Do<ClockService, Result<ClockStopped>>(clock => clock.StopAsync(Ct));

    private static Task<RunningView?> Running(Workshop shop, Guid? by = null) => shop.Do<ClockService, RunningView?>(clock => clock.RunningAsync(Ct), by);

    [Fact]
    public async Task The_clock_runs_in_the_database_and_counts_when_it_is_stopped()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        Assert.True((await Start(shop, repair)).IsDone);
        shop.Clock.Forward(TimeSpan.FromMinutes(47));
        Assert.Equal(47, (await Running(shop))!.Minutes);
        Assert.Equal(new ClockStopped(repair.Number, 47), (await Stop(shop)).Value);
        Assert.Null(await Running(shop));
        Assert.Equal(shop.Clock.Now.AddMinutes(-47), await shop.Db(db => db.Repairs.Select(row => row.BenchAt).SingleAsync(Ct)));
    }

    [Fact]
    public async Task Starting_elsewhere_stops_the_first_in_the_same_moment_and_says_so()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var (first, second) = (await shop.Repair(), await shop.Repair());
        await Start(shop, first);
        shop.Clock.Forward(TimeSpan.FromMinutes(30));
        Assert.Equal(new ClockStarted(first.Number, 30), (await Start(shop, second)).Value);
        Assert.Equal(second.Number, (await Running(shop))!.Number);
    }

    [Fact]
    public async Task Starting_twice_on_one_repair_is_refused()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        await Start(shop, repair);
        Assert.Equal(new ClockRunsAlready(repair.Number), (await Start(shop, repair)).Failure);
    }

    [Fact]
    public async Task Two_people_may_each_have_a_clock_on_one_camera()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        Assert.True((await Start(shop, repair)).IsDone);
        Assert.True((await Start(shop, repair, shop.Helper)).IsDone);
        Assert.NotNull(await Running(shop, shop.Helper));
    }

    [Fact]
    public async Task Sixteen_starts_at_once_leave_one_clock_running()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repairs = new List<Repair>();
        for (var i = 0; i < 16; i++)
            repairs.Add(await shop.Repair());
        var answers = await Task.WhenAll(repairs.Select(repair => Start(shop, repair)));
        Assert.All(answers, answer => Assert.True(answer.IsDone, answer.Failure?.Message));
        Assert.Equal(1, await shop.Db(db => db.LabourEntries.CountAsync(entry => entry.EndedAt == null, Ct)));
        Assert.Equal(15, await shop.Db(db => db.LabourEntries.CountAsync(entry => entry.Minutes == 0, Ct)));
    }

    [Fact]
    public async Task Stopping_twice_at_once_counts_once()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await Start(shop, await shop.Repair());
        shop.Clock.Forward(TimeSpan.FromMinutes(10));
        var answers = await Task.WhenAll(Stop(shop), Stop(shop));
        Assert.Contains(answers, answer => answer.IsDone);
        Assert.All(answers, answer => Assert.True(answer.IsDone || answer.Failure is NoClockRunning));
        Assert.Equal(10, await shop.Db(db => db.LabourEntries.Select(entry => entry.Minutes).SingleAsync(Ct)));
    }

    [Fact]
    public async Task A_forgotten_clock_is_asked_about_before_anything_is_written()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var (repair, other) = (await shop.Repair(), await shop.Repair());
        await Start(shop, repair);
        shop.Clock.Forward(TimeSpan.FromHours(13));
        Assert.Equal(new ClockForgotten(repair.Number, OnTheDay(24, "09:00")), (await Stop(shop)).Failure);
        Assert.IsType<ClockForgotten>((await Start(shop, other)).Failure);
        Assert.True((await Running(shop))!.Forgotten);
        var said = await shop.Do<ClockService, Result<ClockStopped>>(
            clock => clock.StopAtAsync(new DateOnly(2026, 11, 24), new TimeOnly(11, 15), WhichHour.NotSaid, Ct));
        Assert.Equal(new ClockStopped(repair.Number, 135), said.Value);
    }

    [Theory]
    [InlineData("2026-11-24", "09:00", typeof(StopBeforeStart))]
    [InlineData("2026-11-24", "08:59", typeof(StopBeforeStart))]
    [InlineData("2026-11-25", "09:01", typeof(WorkNotYetDone))]
    [InlineData("2026-11-24", "23:00", typeof(WorkNotYetDone))]
    public async Task A_stop_before_the_start_or_after_now_is_refused(string day, string time, Type refusal)
    {
        await using var shop = await Workshop.OpenAsync(server);
        await Start(shop, await shop.Repair());
        shop.Clock.Forward(TimeSpan.FromHours(13));
        var said = await shop.Do<ClockService, Result<ClockStopped>>(
            clock => clock.StopAtAsync(DateOnly.Parse(day, CultureInfo.InvariantCulture), TimeOnly.Parse(time, CultureInfo.InvariantCulture), WhichHour.NotSaid, Ct));
        Assert.IsType(refusal, said.Failure);
    }

    [Fact]
    public async Task A_computer_clock_set_back_is_named_and_the_clock_runs_on()
    {
        await using var shop = await Workshop.OpenAsync(server);
        await Start(shop, await shop.Repair());
        shop.Clock.Forward(TimeSpan.FromHours(-1));
        Assert.Equal(new ClockWentBack(OnTheDay(24, "09:00"), OnTheDay(24, "08:00")), (await Stop(shop)).Failure);
        Assert.NotNull(await Running(shop));
    }

    [Fact]
    public async Task A_camera_that_went_home_has_no_clock()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair((row, _) => row.ReturnedAt = shop.Clock.Now);
        Assert.Equal(new CameraHasGoneHome(repair.Number), (await Start(shop, repair)).Failure);
    }

    [Fact]
    public async Task A_start_inside_an_entry_typed_before_names_that_entry()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = await shop.Repair();
        await shop.Do<LabourService, Result<LabourKept>>(hours => hours.AddAsync(repair.Id, new LabourTyped(
            new DateOnly(2026, 11, 24), new TimeOnly(8, 0), new TimeOnly(9, 0), null, WhichHour.NotSaid, "", true), Guid.CreateVersion7(), Ct));
        shop.Clock.Forward(TimeSpan.FromMinutes(-30));
        Assert.Equal(new OverlapsAnotherEntry(repair.Number, OnTheDay(24, "08:00"), OnTheDay(24, "09:00")), (await Start(shop, repair)).Failure);
    }

    private static string OnTheDay(int day, string time) => $"{DayText.Write(new DateOnly(2026, 11, day))}, {time}";
}
