using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;

namespace RepairShop.Services.Labour;

/// <summary>One clock a person. It is a row in the database, so a closed tablet or a restarted server does not stop it.</summary>
public sealed class ClockService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    /// <summary>The acting person's running clock; null when it stands still or nobody is signed in.</summary>
    public async Task<RunningView?> RunningAsync(CancellationToken cancel) =>
        person.Id is null ? null : await RunningAsync(db, person, clock, await LabourService.ZoneAsync(db, cancel), cancel);

    /// <summary>Starts the clock on a repair; where it runs elsewhere it is stopped in the same moment.</summary>
    public async Task<Result<ClockStarted>> StartAsync(Guid repairId, string activity, bool billable, CancellationToken cancel)
    {
        var zone = await LabourService.ZoneAsync(db, cancel);
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        await OneAtATimeAsync(cancel);
        var repair = await db.Repairs.SingleAsync(row => row.Id == repairId, cancel);
        if (repair.ReturnedAt is not null)
            return new CameraHasGoneHome(repair.Number);
        var now = clock.GetUtcNow();
        var running = await MineAsync(cancel);
        var elsewhere = running is null ? null : await NumberAsync(running.RepairId, cancel);
        if (running is not null)
        {
            if (running.RepairId == repairId)
                return new ClockRunsAlready(elsewhere!);
            if (RunningClock.IsForgotten(running.StartedAt!.Value, now))
                return new ClockForgotten(elsewhere!, RunningClock.Wall(running.StartedAt.Value, zone));
            var stopped = RunningClock.Stop(running, now, zone);
            if (!stopped.IsDone)
                return stopped.Failure;
            await db.SaveChangesAsync(cancel);
        }

        var entry = new LabourEntry
        {
            RepairId = repairId,
            WorkerId = person.RequiredId,
            WorkDate = WallClock.DayOf(now, zone),
            StartedAt = now,
            Activity = activity.Trim(),
            Billable = billable,
            CreatedAt = now,
        };
        db.LabourEntries.Add(entry);
        repair.BenchAt ??= now;
        var inTheWay = new OverlapsAnotherEntry("", "", "");
        var saved = await db.SaveAsync(cancel, (LabourService.NoOverlap, inTheWay));
        if (!saved.IsDone)
        {
            await transaction.RollbackAsync(cancel);
            return saved.Failure == inTheWay ? await LabourService.OverlapAsync(db, entry, zone, cancel) : saved.Failure;
        }

        await transaction.CommitAsync(cancel);
        return new ClockStarted(elsewhere, running?.Minutes ?? 0);
    }

    /// <summary>Stops the acting person's clock now. One that was forgotten is asked about instead: see <see cref="StopAtAsync"/>.</summary>
    public async Task<Result<ClockStopped>> StopAsync(CancellationToken cancel)
    {
        var zone = await LabourService.ZoneAsync(db, cancel);
        var now = clock.GetUtcNow();
        var running = await MineAsync(cancel);
        if (running is null)
            return new NoClockRunning();
        var number = await NumberAsync(running.RepairId, cancel);
        if (RunningClock.IsForgotten(running.StartedAt!.Value, now))
            return new ClockForgotten(number, RunningClock.Wall(running.StartedAt.Value, zone));
        return await StopAsync(running, number, now, zone, cancel);
    }

    /// <summary>Stops the acting person's clock at the time they really stopped.</summary>
    public async Task<Result<ClockStopped>> StopAtAsync(DateOnly day, TimeOnly time, WhichHour which, CancellationToken cancel)
    {
        var zone = await LabourService.ZoneAsync(db, cancel);
        var running = await MineAsync(cancel);
        if (running is null)
            return new NoClockRunning();
        var at = WallClock.Resolve(day, time, zone, which, "Time");
        if (!at.IsDone)
            return at.Failure;
        var started = RunningClock.Wall(running.StartedAt!.Value, zone);
        if (at.Value <= running.StartedAt)
            return new StopBeforeStart("Time", started);
        if (at.Value > clock.GetUtcNow())
            return new WorkNotYetDone("Time", RunningClock.Wall(at.Value, zone));
        if (WorkSpan.MinutesBetween(running.StartedAt.Value, at.Value) > LengthText.LongestMinutes)
            return new ClockOverADay("Time", started);
        return await StopAsync(running, await NumberAsync(running.RepairId, cancel), at.Value, zone, cancel);
    }

    internal static async Task<RunningView?> RunningAsync(ShopDb db, CurrentPerson person, TimeProvider clock, TimeZoneInfo zone, CancellationToken cancel)
    {
        if (person.Id is not { } me)
            return null;
        var running = await (
            from entry in db.LabourEntries.AsNoTracking()
            join repair in db.Repairs on entry.RepairId equals repair.Id
            where entry.WorkerId == me && entry.StartedAt != null && entry.EndedAt == null && entry.RemovedAt == null
            select new { entry.Id, entry.RepairId, repair.Number, entry.StartedAt, entry.Activity }).FirstOrDefaultAsync(cancel);
        if (running is null)
            return null;
        var (since, now) = (running.StartedAt!.Value, clock.GetUtcNow());
        return new RunningView(
            running.Id, running.RepairId, running.Number, WallClock.OnTheWall(since, zone), Math.Max(0, WorkSpan.MinutesBetween(since, now)),
            running.Activity, RunningClock.IsForgotten(since, now));
    }

    private async Task<Result<ClockStopped>> StopAsync(LabourEntry running, string number, DateTimeOffset at, TimeZoneInfo zone, CancellationToken cancel)
    {
        var stopped = RunningClock.Stop(running, at, zone);
        if (!stopped.IsDone)
            return stopped.Failure;
        var saved = await db.SaveAsync(cancel);
        // Two taps on Stop: the second finds nothing running, whatever the row says by then.
        return saved.Failure switch
        {
            null => new ClockStopped(number, running.Minutes!.Value),
            ChangedMeanwhile => new NoClockRunning(),
            var failure => failure,
        };
    }

    /// <summary>A person's two tablets take turns: the second sees what the first has done.</summary>
    private Task<int> OneAtATimeAsync(CancellationToken cancel) =>
        db.Database.ExecuteSqlAsync($"select 1 from accounts where id = {person.RequiredId} for no key update", cancel);

    private Task<LabourEntry?> MineAsync(CancellationToken cancel)
    {
        var me = person.RequiredId;
        return db.LabourEntries.SingleOrDefaultAsync(
            entry => entry.WorkerId == me && entry.StartedAt != null && entry.EndedAt == null && entry.RemovedAt == null, cancel);
    }

    private Task<string> NumberAsync(Guid repairId, CancellationToken cancel) =>
        db.Repairs.Where(repair => repair.Id == repairId).Select(repair => repair.Number).SingleAsync(cancel);
}
