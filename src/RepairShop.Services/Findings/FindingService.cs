using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Checks;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;

namespace RepairShop.Services.Findings;

/// <summary>What a person typed about one finding.</summary>
/// <param name="Version">Of the finding as it was when the form was opened; 0 for a new one.</param>
public sealed record FindingTyped(
    string Component, Condition Condition, string Text, string EarlierWork, string GaugeName, double? GaugeValue, string GaugeUnit,
    double? GaugeLow, double? GaugeHigh, string ActionTaken, bool OnServiceRecord, uint Version);

/// <summary>One finding as it is shown.</summary>
public sealed record FindingLine(
    Guid Id, string Component, Condition Condition, string Text, string EarlierWork, string GaugeName, Gauge? Gauge,
    string ActionTaken, bool OnServiceRecord, IReadOnlyList<FindingPhoto> Photos, FindingTyped AsTyped);

/// <summary>A photo of a finding, by the hashes it is stored under.</summary>
public sealed record FindingPhoto(Guid Id, string FileHash, string ThumbnailHash, string Caption);

/// <summary>What the shop has written before, most used first, offered while typing.</summary>
public sealed record FindingWords(IReadOnlyList<string> Components, IReadOnlyList<string> Gauges, IReadOnlyList<string> Actions);

/// <summary>Findings of a repair: added, changed, taken off the sheet and brought back.</summary>
public sealed class FindingService(ShopDb db, CurrentPerson person, TimeProvider clock)
{
    public async Task<IReadOnlyList<FindingLine>> ForRepairAsync(Guid repairId, CancellationToken cancel)
    {
        var findings = await db.Findings.AsNoTracking().Where(row => row.RepairId == repairId && row.RemovedAt == null)
            .OrderBy(row => row.Position).ThenBy(row => row.FoundAt).ToListAsync(cancel);
        var photos = await db.Photos.AsNoTracking().Where(row => row.RepairId == repairId && row.FindingId != null && row.RemovedAt == null)
            .OrderBy(row => row.Position).ToListAsync(cancel);
        return [.. findings.Select(finding => new FindingLine(
            finding.Id, finding.Component, finding.Condition, finding.Text, finding.EarlierWork, finding.GaugeName,
            FindingRules.GaugeOf(finding), finding.ActionTaken, finding.OnServiceRecord,
            [.. photos.Where(photo => photo.FindingId == finding.Id)
                .Select(photo => new FindingPhoto(photo.Id, photo.FileHash, photo.ThumbnailHash, photo.Caption))],
            Typed(finding)))];
    }

    public async Task<FindingWords> WordsAsync(CancellationToken cancel)
    {
        var kept = db.Findings.Where(row => row.RemovedAt == null);
        return new FindingWords(
            await MostUsed(kept.Select(row => row.Component)).ToListAsync(cancel),
            await MostUsed(kept.Select(row => row.GaugeName)).ToListAsync(cancel),
            await MostUsed(kept.Select(row => row.ActionTaken)).ToListAsync(cancel));
    }

    /// <param name="once">Made when the form was opened, so that the same form sent twice is kept once.</param>
    public async Task<Result<Guid>> AddAsync(Guid repairId, FindingTyped typed, Guid once, CancellationToken cancel)
    {
        var last = await db.Findings.Where(row => row.RepairId == repairId).MaxAsync(row => (int?)row.Position, cancel) ?? 0;
        var finding = new Finding { Id = once, RepairId = repairId, Position = last + 1, FoundAt = clock.GetUtcNow(), FoundBy = person.RequiredId };
        Fill(finding, typed);
        if (FindingRules.WhyNot(finding) is { } refused)
            return refused;
        if (await db.Findings.AsNoTracking().SingleOrDefaultAsync(row => row.Id == once, cancel) is { } earlier)
        {
            if (earlier.RepairId == repairId && earlier.RemovedAt is null && Typed(earlier) with { Version = 0 } == Typed(finding) with { Version = 0 })
                return once;
            // The back button brought the form back: something else was written in it, or the first was removed meanwhile.
            finding.Id = Guid.CreateVersion7();
        }

        db.Findings.Add(finding);
        var sentTwice = new FindingNotFound();
        var saved = await db.SaveAsync(cancel, ("pk_findings", sentTwice));
        return saved.IsDone || saved.Failure == sentTwice ? finding.Id : saved.Failure;
    }

    public async Task<Result> ChangeAsync(Guid repairId, Guid id, FindingTyped typed, CancellationToken cancel)
    {
        var finding = await db.Findings.SingleOrDefaultAsync(row => row.Id == id && row.RepairId == repairId && row.RemovedAt == null, cancel);
        if (finding is null)
            return new FindingNotFound();
        db.Entry(finding).Property(row => row.Version).OriginalValue = typed.Version;
        Fill(finding, typed);
        if (FindingRules.WhyNot(finding) is { } refused)
            return refused;
        return await db.SaveAsync(cancel);
    }

    public Task<Result> RemoveAsync(Guid repairId, Guid id, CancellationToken cancel) => SetRemovedAsync(repairId, id, clock.GetUtcNow(), cancel);

    public Task<Result> BringBackAsync(Guid repairId, Guid id, CancellationToken cancel) => SetRemovedAsync(repairId, id, null, cancel);

    private async Task<Result> SetRemovedAsync(Guid repairId, Guid id, DateTimeOffset? at, CancellationToken cancel)
    {
        var finding = await db.Findings.SingleOrDefaultAsync(row => row.Id == id && row.RepairId == repairId, cancel);
        if (finding is null)
            return new FindingNotFound();
        finding.RemovedAt = at is null ? null : finding.RemovedAt ?? at;
        return await db.SaveAsync(cancel);
    }

    private static IQueryable<string> MostUsed(IQueryable<string> words) => words.Where(word => word != "")
        .GroupBy(word => word).OrderByDescending(group => group.Count()).ThenBy(group => group.Key).Select(group => group.Key).Take(40);

    private static void Fill(Finding finding, FindingTyped typed)
    {
        finding.Component = typed.Component.Trim();
        finding.Condition = typed.Condition;
        finding.Text = typed.Text.Trim();
        finding.EarlierWork = typed.EarlierWork.Trim();
        finding.GaugeName = typed.GaugeName.Trim();
        finding.GaugeValue = typed.GaugeValue;
        finding.GaugeUnit = typed.GaugeUnit.Trim();
        finding.GaugeLow = typed.GaugeLow;
        finding.GaugeHigh = typed.GaugeHigh;
        finding.ActionTaken = typed.ActionTaken.Trim();
        finding.OnServiceRecord = typed.OnServiceRecord;
    }

    private static FindingTyped Typed(Finding finding) => new(
        finding.Component, finding.Condition, finding.Text, finding.EarlierWork, finding.GaugeName, finding.GaugeValue, finding.GaugeUnit,
        finding.GaugeLow, finding.GaugeHigh, finding.ActionTaken, finding.OnServiceRecord, finding.Version);
}
