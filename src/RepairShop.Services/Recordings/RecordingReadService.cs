using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Database;
using RepairShop.Services.Files;
using RepairShop.Services.Labour;
using RepairShop.Services.ShutterTests;

namespace RepairShop.Services.Recordings;

/// <summary>Shows recordings: one with its exposures, those of a shutter test, and the signals of a repair before and after.</summary>
public sealed class RecordingReadService(ShopDb db, FileStore files, ShutterTestService tests)
{
    public async Task<Result<RecordingView>> GetAsync(Guid repairId, Guid id, CancellationToken cancel)
    {
        var row = await (
            from recording in db.Recordings.AsNoTracking()
            join test in db.ShutterTests on recording.ShutterTestId equals test.Id
            where recording.Id == id && recording.RepairId == repairId
            select new { recording, test.Phase }).SingleOrDefaultAsync(cancel);
        if (row is null)
            return new RecordingNotFound();
        var kept = row.recording;
        var by = await db.Users.Where(account => account.Id == kept.RecordedBy).Select(account => account.DisplayName).FirstOrDefaultAsync(cancel);
        var readings = await db.Readings.AsNoTracking().Where(reading => reading.RecordingId == id).OrderBy(reading => reading.Position).ToListAsync(cancel);
        var summary = RecordingSummary.Read(kept.Result);
        var zone = await LabourService.ZoneAsync(db, cancel);
        var dial = await tests.MarksAsync(repairId, cancel);
        return new RecordingView(
            kept.Id, kept.ShutterTestId, row.Phase, kept.FileName, kept.Kind, WallClock.OnTheWall(kept.RecordedAt, zone), by ?? "", kept.SampleRateHz,
            kept.DurationSeconds, kept.Channels, kept.Bytes, JsonSerializer.Deserialize<RigFacts>(kept.Rig, PaperJson.Options)!, kept.AnalysisVersion,
            kept.AnalysisVersion != RecordingAnalysis.Version, summary, kept.LostBlocks,
            [.. summary.Exposures.Select(one => Line(one, readings))],
            [.. dial.Where(mark => mark.LiteralSeconds is not null).Select(mark => (mark.Text, ShutterFigures.Shown(mark)))], kept.Version);
    }

    /// <summary>The raw file with the name it came under; a file that no longer fits its hash is not given out.</summary>
    public async Task<Result<(Stream Content, string FileName)>> OpenAsync(Guid repairId, Guid id, CancellationToken cancel)
    {
        var kept = await db.Recordings.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id && row.RepairId == repairId, cancel);
        if (kept is null)
            return new RecordingNotFound();
        return files.Has(kept.FileHash) ? (files.OpenRead(kept.FileHash), kept.FileName) : new RecordingFileDamaged();
    }

    /// <summary>All recordings of a repair's phase, newest first.</summary>
    public async Task<IReadOnlyList<RecordingLine>> ListAsync(Guid repairId, Domain.Checks.Phase phase, CancellationToken cancel)
    {
        var zone = await LabourService.ZoneAsync(db, cancel);
        var rows = await (
            from recording in db.Recordings.AsNoTracking()
            join test in db.ShutterTests on recording.ShutterTestId equals test.Id
            where recording.RepairId == repairId && test.Phase == phase
            orderby recording.RecordedAt descending
            select new
            {
                recording.Id,
                recording.FileName,
                recording.Kind,
                recording.RecordedAt,
                recording.DurationSeconds,
                All = db.Readings.Where(reading => reading.RecordingId == recording.Id).Select(reading => reading.Exposure).Distinct().Count(),
                Counted = db.Readings.Count(reading => reading.RecordingId == recording.Id && reading.StruckOutReason == null),
            }).ToListAsync(cancel);
        return [.. rows.Select(row => new RecordingLine(
            row.Id, row.FileName, row.Kind, WallClock.OnTheWall(row.RecordedAt, zone), row.DurationSeconds, row.All, row.Counted))];
    }

    /// <summary>What one stay at the capture page has brought, newest first.</summary>
    public async Task<IReadOnlyList<ReleaseLine>> ReleasesAsync(Guid repairId, Guid session, CancellationToken cancel)
    {
        var rows = await (
            from recording in db.Recordings.AsNoTracking()
            join reading in db.Readings on recording.Id equals reading.RecordingId
            where recording.RepairId == repairId && recording.CaptureSession == session
            orderby recording.RecordedAt descending, reading.Exposure descending
            select new { recording.Id, recording.Result, recording.LostBlocks, reading }).ToListAsync(cancel);
        return [.. rows.Select(row =>
        {
            var summary = RecordingSummary.Read(row.Result);
            var figures = summary.Exposures.First(one => one.Number == row.reading.Exposure);
            return new ReleaseLine(
                row.Id, row.reading.Id, ShutterFigures.Shown(MarkedSpeed.Parse(row.reading.MarkedSpeed).Mark!), figures,
                [.. summary.Warnings, .. SignalWords.OfLostBlocks(row.LostBlocks) is { } lost ? [lost] : Array.Empty<NamedText>()], row.reading.StruckOutReason);
        })];
    }

    /// <summary>Signals laid over each other, and the figures beside them.</summary>
    public async Task<SignalsView> SignalsAsync(Guid repairId, CancellationToken cancel)
    {
        var traces = await RecordedSessions.ReadAsync(db, repairId, cancel);
        return new SignalsView(traces.Traces, (await tests.BeforeAndAfterAsync(repairId, cancel)).Rows);
    }

    private static ExposureLine Line(ExposureSummary figures, List<Domain.ShutterTests.Reading> readings)
    {
        var own = readings.Where(reading => reading.Exposure == figures.Number).ToList();
        // The one that counts; else the last one, which a person struck out.
        var shown = own.Find(reading => reading.StruckOutReason is null) ?? own.LastOrDefault();
        return new ExposureLine(figures, shown?.MarkedSpeed, shown?.Id, shown?.StruckOutReason);
    }
}
