using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;
using RepairShop.Domain.ShutterTests;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Accounts;
using RepairShop.Services.Database;
using RepairShop.Services.Files;
using RepairShop.Services.ShutterTests;

namespace RepairShop.Services.Recordings;

/// <summary>Takes recordings in, turns their exposures into readings, and reads them anew when the analysis or the rig changed.</summary>
public sealed class RecordingService(ShopDb db, FileStore files, ShutterTestService tests, CurrentPerson person, TimeProvider clock)
{
    private const string Assigned = "Given another marked speed.";

    /// <summary>Reads, analyses and keeps a file; nothing is kept of one that gives no figure.</summary>
    /// <param name="testId">The shutter test its readings go to; null begins one.</param>
    public async Task<Result<RecordingKept>> AddAsync(Guid repairId, Phase phase, Guid? testId, RecordingSent sent, CancellationToken cancel)
    {
        if (sent.Id is { } once && await FindAsync(repairId, once, cancel) is { } there)
            return new RecordingKept(there.Id, there.ShutterTestId, RecordingSummary.Read(there.Result).Exposures.Count, 0);
        testId ??= sent.CaptureSession is { } session ? await TestOfAsync(repairId, session, cancel) : null;
        var marks = MarkList.Read(sent.Marks);
        if (!marks.IsDone)
            return marks.Failure;
        var test = await tests.FindOrBeginAsync(repairId, phase, testId, sent.Instrument, cancel);
        if (!test.IsDone)
            return test.Failure;
        var rig = await CarryAsync(test.Value.Id, sent, cancel);
        var read = Analyse(sent.Content, rig);
        if (!read.IsDone)
            return read.Failure;
        var spread = MarkList.Spread(marks.Value, read.Value.Result.Exposures.Count);
        if (!spread.IsDone)
            return spread.Failure;
        var hash = await StoreAsync(sent.Content, cancel);
        if (!hash.IsDone)
            return hash.Failure;
        var recording = Kept(test.Value, sent, rig, read.Value, hash.Value);
        db.Recordings.Add(recording);
        var summary = RecordingSummary.Of(read.Value.Result);
        var readings = summary.Exposures.Zip(spread.Value).Where(pair => pair.Second is not null)
            .Select(pair => Reading(recording, pair.First, pair.Second!.Text)).ToList();
        await AppendAsync(test.Value.Id, readings, cancel);
        var saved = await db.SaveAsync(cancel);
        return saved.IsDone ? new RecordingKept(recording.Id, test.Value.Id, summary.Exposures.Count, readings.Count) : saved.Failure;
    }

    /// <summary>The shutter test a stay at the capture page writes to; null before its first release.</summary>
    public Task<Guid?> TestOfAsync(Guid repairId, Guid session, CancellationToken cancel) => db.Recordings
        .Where(row => row.RepairId == repairId && row.CaptureSession == session).Select(row => (Guid?)row.ShutterTestId).FirstOrDefaultAsync(cancel);

    /// <summary>Gives exposures their marked speeds; an exposure whose speed changes keeps its old reading, struck out.</summary>
    /// <param name="marks">The mark of each exposure by number; empty for none.</param>
    public async Task<Result> AssignAsync(Guid repairId, Guid id, IReadOnlyDictionary<int, string> marks, CancellationToken cancel)
    {
        if (await FindAsync(repairId, id, cancel) is not { } recording)
            return new RecordingNotFound();
        var dial = await tests.MarksAsync(repairId, cancel);
        await using var together = await db.Database.BeginTransactionAsync(cancel);
        var live = await db.Readings.Where(row => row.RecordingId == id && row.StruckOutReason == null).ToListAsync(cancel);
        var added = new List<Reading>();
        foreach (var exposure in RecordingSummary.Read(recording.Result).Exposures)
        {
            if (!marks.TryGetValue(exposure.Number, out var text))
                continue;
            var now = live.Find(row => row.Exposure == exposure.Number);
            if (text.Length > 0 && !dial.Any(mark => mark.Text == text && mark.LiteralSeconds is not null) && now?.MarkedSpeed != text)
                return new MarkNotTimed(text);
            if (now?.MarkedSpeed == text)
                continue;
            if (now is not null)
                now.StruckOutReason = Assigned;
            if (text.Length > 0)
                added.Add(Reading(recording, exposure, text));
        }

        return await SaveAsync(together, recording.ShutterTestId, added, cancel);
    }

    /// <summary>
    /// Reads the kept file with the analysis of today and the rig given. Readings of the old analysis are struck out with the reason and kept;
    /// new ones take their speeds, and stay struck out where a person had struck them out.
    /// </summary>
    public async Task<Result> AnalyseAgainAsync(Guid repairId, Guid id, RigFacts rig, uint version, CancellationToken cancel)
    {
        if (await FindAsync(repairId, id, cancel) is not { } recording)
            return new RecordingNotFound();
        if (!(rig.FrameWidthMm >= 5 && rig.FrameWidthMm <= 300))
            return new FrameWidthOutOfRange(rig.FrameWidthMm);
        if (!files.Has(recording.FileHash))
            return new RecordingFileDamaged();
        db.Entry(recording).Property(row => row.Version).OriginalValue = version;
        var carried = rig with { CarriedFrom = null, CarriedLevel = null, CarriedUncertainty = null };
        if (rig.CarriedFrom is { } from && await LevelOfAsync(from, repairId, cancel) is { } level)
            carried = carried with { CarriedFrom = from, CarriedLevel = level.Value, CarriedUncertainty = level.StandardUncertainty };
        await using var content = files.OpenRead(recording.FileHash);
        var read = Analyse(content, carried);
        if (!read.IsDone)
            return read.Failure;
        var summary = RecordingSummary.Of(read.Value.Result);
        await using var together = await db.Database.BeginTransactionAsync(cancel);
        var old = await db.Readings.Where(row => row.RecordingId == id).OrderBy(row => row.Position).ToListAsync(cancel);
        var before = RecordingSummary.Read(recording.Result).Exposures;
        var reason = recording.AnalysisVersion == read.Value.Result.AnalysisVersion
            ? "Analysed again with other settings." : $"Analysed again: version {read.Value.Result.AnalysisVersion} in place of {recording.AnalysisVersion}.";
        var renewed = Renewed(recording, summary, before, old, reason);
        (recording.Rig, recording.Result, recording.AnalysisVersion, recording.AnalysedAt) =
            (System.Text.Json.JsonSerializer.Serialize(carried, Domain.Paperwork.PaperJson.Options), summary.Write(), read.Value.Result.AnalysisVersion, clock.GetUtcNow());
        return await SaveAsync(together, recording.ShutterTestId, renewed, cancel);
    }

    /// <summary>Old readings are struck out before new ones come in: an exposure counts once at any moment.</summary>
    private async Task<Result> SaveAsync(IDbContextTransaction together, Guid testId, List<Reading> added, CancellationToken cancel)
    {
        var struck = await db.SaveAsync(cancel);
        if (!struck.IsDone)
            return struck;
        await AppendAsync(testId, added, cancel);
        var saved = await db.SaveAsync(cancel);
        if (saved.IsDone)
            await together.CommitAsync(cancel);
        return saved;
    }

    /// <summary>Exposures are known again by where they begin, since a better analysis may find more of them.</summary>
    private List<Reading> Renewed(
        KeptRecording recording, RecordingSummary now, IReadOnlyList<ExposureSummary> before, List<Reading> old, string reason)
    {
        var added = new List<Reading>();
        foreach (var reading in old.Where(row => row.StruckOutReason is null || !IsOurs(row.StruckOutReason)))
        {
            var was = before.FirstOrDefault(one => one.Number == reading.Exposure);
            var same = was is null ? null : now.Exposures.MinBy(one => Math.Abs(one.Crossings.Opening50Seconds - was.Crossings.Opening50Seconds));
            if (same is not null && Math.Abs(same.Crossings.Opening50Seconds - was!.Crossings.Opening50Seconds) < was.TotalSeconds)
            {
                var renewed = Reading(recording, same, reading.MarkedSpeed);
                renewed.StruckOutReason = reading.StruckOutReason;
                added.Add(renewed);
            }

            reading.StruckOutReason ??= reason;
            if (reading.StruckOutReason != reason)
                reading.StruckOutReason = $"{reason} Before: {reading.StruckOutReason}"[..Math.Min(300, reason.Length + 9 + reading.StruckOutReason.Length)];
        }

        return added;
    }

    private static bool IsOurs(string reason) => reason == Assigned || reason.StartsWith("Analysed again", StringComparison.Ordinal);

    private async Task<RigFacts> CarryAsync(Guid testId, RecordingSent sent, CancellationToken cancel)
    {
        if (sent.CaptureSession is not { } stay || sent.Rig.Reference is not null)
            return sent.Rig;
        var earlier = await db.Recordings.AsNoTracking().Where(row => row.ShutterTestId == testId && row.CaptureSession == stay)
            .OrderByDescending(row => row.RecordedAt).Select(row => new { row.Id, row.Result }).Take(60).ToListAsync(cancel);
        foreach (var one in earlier)
        {
            var summary = RecordingSummary.Read(one.Result);
            if (summary.OpenLevel is { } level && summary.Exposures.Any(exposure => exposure.EffectiveBy == OpenLevelSource.OwnPlateau))
                return sent.Rig with { CarriedFrom = one.Id, CarriedLevel = level.Value, CarriedUncertainty = level.StandardUncertainty };
        }

        return sent.Rig;
    }

    private async Task<OpenLevel?> LevelOfAsync(Guid id, Guid repairId, CancellationToken cancel) =>
        await FindAsync(repairId, id, cancel) is { } other ? RecordingSummary.Read(other.Result).OpenLevel : null;

    private static Result<Analysed> Analyse(Stream content, RigFacts rig)
    {
        content.Position = 0;
        var read = RecordingReader.Read(content);
        if (!read.IsDone)
            return read.Failure;
        var recording = read.Value.Recording;
        if (RigFit.WhyNot(rig.ToRig(), recording.ChannelCount) is { } unfit)
            return unfit;
        var result = RecordingAnalysis.Analyse(recording, rig.ToRig());
        return result.Outcome == Outcome.Ok && result.Exposures.Count > 0
            ? new Analysed(recording, read.Value.Kind, result)
            : new NoFigures(SignalWords.Name(result.Outcome.ToString()), SignalWords.Of(result.Outcome == Outcome.Ok ? Outcome.NoExposure : result.Outcome));
    }

    private async Task<Result<string>> StoreAsync(Stream content, CancellationToken cancel)
    {
        try
        {
            content.Position = 0;
            return await files.PutAsync(content, cancel);
        }
        catch (IOException)
        {
            return new NoRoomForRecording();
        }
    }

    private KeptRecording Kept(ShutterTest test, RecordingSent sent, RigFacts rig, Analysed read, string hash) => new()
    {
        Id = sent.Id ?? Guid.CreateVersion7(),
        RepairId = test.RepairId,
        ShutterTestId = test.Id,
        Kind = sent.CaptureSession is null ? read.Kind : RecordingKind.Captured,
        FileName = sent.FileName.Length > 200 ? sent.FileName[^200..] : sent.FileName,
        FileHash = hash,
        Bytes = sent.Content.Length,
        SampleRateHz = read.Recording.SampleRateHz,
        DurationSeconds = read.Recording.DurationSeconds,
        Channels = read.Recording.ChannelCount,
        Rig = System.Text.Json.JsonSerializer.Serialize(rig, Domain.Paperwork.PaperJson.Options),
        AnalysisVersion = read.Result.AnalysisVersion,
        Result = RecordingSummary.Of(read.Result).Write(),
        CaptureSession = sent.CaptureSession,
        LostBlocks = sent.LostBlocks,
        RecordedBy = person.RequiredId,
        RecordedAt = clock.GetUtcNow(),
        AnalysedAt = clock.GetUtcNow(),
    };

    private Reading Reading(KeptRecording recording, ExposureSummary exposure, string mark) => new()
    {
        ShutterTestId = recording.ShutterTestId,
        MarkedSpeed = mark,
        Kind = exposure.EffectiveSeconds is null ? ReadingKind.HalfWidth : ReadingKind.Effective,
        Seconds = exposure.ReadingSeconds,
        OpeningSeconds = exposure.OpeningSeconds,
        ClosingSeconds = exposure.ClosingSeconds,
        RecordingId = recording.Id,
        Exposure = exposure.Number,
        StepSeconds = exposure.StepSeconds,
        TriggerSeconds = exposure.TriggerSeconds,
        ReadAt = clock.GetUtcNow(),
    };

    private async Task AppendAsync(Guid testId, List<Reading> readings, CancellationToken cancel)
    {
        var last = await db.Readings.Where(row => row.ShutterTestId == testId).MaxAsync(row => (int?)row.Position, cancel) ?? 0;
        foreach (var reading in readings)
            reading.Position = ++last;
        db.Readings.AddRange(readings);
    }

    private Task<KeptRecording?> FindAsync(Guid repairId, Guid id, CancellationToken cancel) =>
        db.Recordings.SingleOrDefaultAsync(row => row.Id == id && row.RepairId == repairId, cancel);

    private sealed record Analysed(Recording Recording, RecordingKind Kind, AnalysisResult Result);
}
