using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Results;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;

namespace RepairShop.Services.Labour;

/// <summary>Hours typed by hand: added, corrected with the old value kept, taken away.</summary>
public sealed class LabourService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    private static readonly Failure SentTwice = new LabourEntryNotFound();

    internal const string NoOverlap = "ex_labour_entries_no_overlap";

    /// <param name="repairId"></param>
    /// <param name="cancel"></param>
    /// <param name="withActivities">For a form that suggests the shop's own words; what only shows hours leaves them out.</param>
    public async Task<HoursView> ForRepairAsync(Guid repairId, CancellationToken cancel, bool withActivities = true)
    {
        var zone = await ZoneAsync(db, cancel);
        var entries = await db.LabourEntries.AsNoTracking().Where(entry => entry.RepairId == repairId)
            .OrderBy(entry => entry.WorkDate).ThenBy(entry => entry.StartedAt ?? entry.CreatedAt).ToListAsync(cancel);
        var ids = entries.Select(entry => entry.Id).ToList();
        var corrections = await db.LabourCorrections.AsNoTracking().Where(line => ids.Contains(line.EntryId)).OrderBy(line => line.At).ToListAsync(cancel);
        var names = await NamesAsync(entries.Select(entry => entry.WorkerId).Concat(corrections.Select(line => line.By)), cancel);
        var lines = entries.Select(entry => Line(entry, corrections.Where(line => line.EntryId == entry.Id), names, zone)).ToList();
        var counted = entries.Where(entry => entry.RemovedAt is null).ToList();
        return new HoursView(
            lines,
            counted.Sum(entry => entry.Minutes ?? 0),
            counted.Where(entry => entry.Billable).Sum(entry => entry.Minutes ?? 0),
            withActivities ? await ActivitiesAsync(cancel) : [],
            await ClockService.RunningAsync(db, person, clock, zone, cancel),
            WallClock.DayOf(clock.GetUtcNow(), zone));
    }

    /// <param name="once">Made when the form was opened, so that the same form sent twice is kept once.</param>
    public async Task<Result<LabourKept>> AddAsync(Guid repairId, LabourTyped typed, Guid once, CancellationToken cancel)
    {
        var repair = await db.Repairs.SingleAsync(row => row.Id == repairId, cancel);
        var zone = await ZoneAsync(db, cancel);
        var now = clock.GetUtcNow();
        var entry = new LabourEntry { Id = once, RepairId = repairId, WorkerId = person.RequiredId, CreatedAt = now };
        var filled = LabourRules.Fill(entry, typed, repair, zone, now);
        if (!filled.IsDone)
            return filled.Failure;
        if (await db.LabourEntries.AsNoTracking().SingleOrDefaultAsync(row => row.Id == once, cancel) is { } earlier)
        {
            if (earlier.RemovedAt is null && IsSame(earlier, entry))
                return new LabourKept(once, entry.Minutes!.Value, filled.Value);
            entry.Id = Guid.CreateVersion7();
        }

        db.LabourEntries.Add(entry);
        repair.BenchAt ??= entry.StartedAt ?? now;
        var saved = await SaveAsync(entry, zone, cancel);
        return saved.IsDone ? new LabourKept(entry.Id, entry.Minutes!.Value, filled.Value) : saved.Failure;
    }

    /// <summary>Writes new values; what stood there is kept beside them with the reason.</summary>
    public async Task<Result<LabourKept>> CorrectAsync(Guid entryId, LabourTyped typed, string? reason, CancellationToken cancel)
    {
        if (string.IsNullOrWhiteSpace(reason))
            return new CorrectionReasonMissing();
        var entry = await db.LabourEntries.SingleOrDefaultAsync(row => row.Id == entryId && row.RemovedAt == null, cancel);
        if (entry is null)
            return new LabourEntryNotFound();
        var repair = await db.Repairs.AsNoTracking().SingleAsync(row => row.Id == entry.RepairId, cancel);
        var zone = await ZoneAsync(db, cancel);
        if (entry.Version != typed.Version)
            return new ChangedMeanwhile(LabourDifferences.Between(entry, typed, zone));
        db.LabourCorrections.Add(OldValue(entry, reason, removed: false));
        var filled = LabourRules.Fill(entry, typed, repair, zone, clock.GetUtcNow());
        if (!filled.IsDone)
            return filled.Failure;
        var saved = await SaveAsync(entry, zone, cancel);
        if (saved.Failure is ChangedMeanwhile)
            return new ChangedMeanwhile(LabourDifferences.Between(await db.LabourEntries.AsNoTracking().SingleAsync(row => row.Id == entryId, cancel), typed, zone));
        return saved.IsDone ? new LabourKept(entry.Id, entry.Minutes!.Value, filled.Value) : saved.Failure;
    }

    /// <summary>Takes the entry out of the count; it stays readable with the reason.</summary>
    public async Task<Result> RemoveAsync(Guid entryId, string? reason, CancellationToken cancel)
    {
        if (string.IsNullOrWhiteSpace(reason))
            return new CorrectionReasonMissing();
        var entry = await db.LabourEntries.SingleOrDefaultAsync(row => row.Id == entryId && row.RemovedAt == null, cancel);
        if (entry is null)
            return new LabourEntryNotFound();
        db.LabourCorrections.Add(OldValue(entry, reason, removed: true));
        entry.RemovedAt = clock.GetUtcNow();
        return await db.SaveAsync(cancel);
    }

    internal static async Task<TimeZoneInfo> ZoneAsync(ShopDb db, CancellationToken cancel) =>
        TimeZoneInfo.FindSystemTimeZoneById(await db.Shop.Select(shop => shop.TimeZone).SingleAsync(cancel));

    /// <summary>Names the entry that is in the way of this one.</summary>
    internal static async Task<OverlapsAnotherEntry> OverlapAsync(ShopDb db, LabourEntry entry, TimeZoneInfo zone, CancellationToken cancel)
    {
        var other = await (
            from row in db.LabourEntries.AsNoTracking()
            join repair in db.Repairs on row.RepairId equals repair.Id
            where row.WorkerId == entry.WorkerId && row.Id != entry.Id && row.RemovedAt == null && row.StartedAt != null
                && (entry.EndedAt == null || row.StartedAt < entry.EndedAt) && (row.EndedAt == null || row.EndedAt > entry.StartedAt)
            orderby row.StartedAt
            select new { repair.Number, row.StartedAt, row.EndedAt }).FirstOrDefaultAsync(cancel);
        return other is null
            ? new OverlapsAnotherEntry("?", RunningClock.Wall(entry.StartedAt!.Value, zone), "?")
            : new OverlapsAnotherEntry(
                other.Number, RunningClock.Wall(other.StartedAt!.Value, zone), other.EndedAt is { } end ? RunningClock.Wall(end, zone) : "");
    }

    /// <summary>The back button brings the form back with the token it was sent with: a changed form is a new entry.</summary>
    private static bool IsSame(LabourEntry one, LabourEntry other) =>
        (one.RepairId, one.WorkDate, one.StartedAt, one.EndedAt, one.Minutes, one.Activity, one.Billable)
        == (other.RepairId, other.WorkDate, other.StartedAt, other.EndedAt, other.Minutes, other.Activity, other.Billable);

    private async Task<Result> SaveAsync(LabourEntry entry, TimeZoneInfo zone, CancellationToken cancel)
    {
        var inTheWay = new OverlapsAnotherEntry("", "", "");
        var saved = await db.SaveAsync(cancel, ("pk_labour_entries", SentTwice), (NoOverlap, inTheWay));
        if (saved.Failure == SentTwice)
            return Result.Done;
        return saved.Failure == inTheWay ? new TimesOverlap(await OverlapAsync(db, entry, zone, cancel)) : saved;
    }

    private LabourCorrection OldValue(LabourEntry entry, string reason, bool removed) => new()
    {
        EntryId = entry.Id,
        OldWorkDate = entry.WorkDate,
        OldStartedAt = entry.StartedAt,
        OldEndedAt = entry.EndedAt,
        OldMinutes = entry.Minutes,
        OldActivity = entry.Activity,
        OldBillable = entry.Billable,
        Removed = removed,
        Reason = reason.Trim(),
        By = person.RequiredId,
        At = clock.GetUtcNow(),
    };

    private static LabourLine Line(LabourEntry entry, IEnumerable<LabourCorrection> before, Dictionary<Guid, string> names, TimeZoneInfo zone) => new(
        entry.Id, names.GetValueOrDefault(entry.WorkerId, "?"), entry.WorkDate, Wall(entry.StartedAt, zone), Wall(entry.EndedAt, zone),
        entry.Minutes, entry.Activity, entry.Billable, entry.RemovedAt is not null, entry.Version,
        [.. before.Select(old => new LabourOldValue(
            WallClock.OnTheWall(old.At, zone), names.GetValueOrDefault(old.By, "?"), old.Reason, old.Removed, old.OldWorkDate,
            Wall(old.OldStartedAt, zone), Wall(old.OldEndedAt, zone), old.OldMinutes, old.OldActivity, old.OldBillable))]);

    private static DateTimeOffset? Wall(DateTimeOffset? moment, TimeZoneInfo zone) => moment is { } at ? WallClock.OnTheWall(at, zone) : null;

    private async Task<Dictionary<Guid, string>> NamesAsync(IEnumerable<Guid> ids, CancellationToken cancel)
    {
        var wanted = ids.Distinct().ToList();
        return await db.Users.Where(account => wanted.Contains(account.Id)).ToDictionaryAsync(account => account.Id, account => account.DisplayName, cancel);
    }

    /// <summary>The shop's own words for what it does, those it used most in its latest 2,000 entries first.</summary>
    private async Task<IReadOnlyList<string>> ActivitiesAsync(CancellationToken cancel) =>
        await db.LabourEntries.OrderByDescending(entry => entry.Id).Take(2_000).Where(entry => entry.Activity != "" && entry.RemovedAt == null)
            .GroupBy(entry => entry.Activity).OrderByDescending(group => group.Count()).ThenBy(group => group.Key)
            .Select(group => group.Key).Take(30).ToListAsync(cancel);
}
