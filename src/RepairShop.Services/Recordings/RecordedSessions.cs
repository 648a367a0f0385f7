using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.ShutterTests;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Database;
using RepairShop.Services.Paperwork;
using RepairShop.Services.ShutterTests;

namespace RepairShop.Services.Recordings;

/// <summary>What recordings add to a repair's shutter times before and after: signals, curtains and flash contacts.</summary>
internal sealed record RecordedSessions(
    IReadOnlyList<SpeedTraceFacts> Traces, IReadOnlyList<CurtainRowFacts> Curtains, IReadOnlyList<FlashRowFacts> Flash)
{
    /// <summary>From the newest session with counted readings of either phase, as the figures are.</summary>
    public static async Task<RecordedSessions> ReadAsync(ShopDb db, Guid repairId, CancellationToken cancel)
    {
        var all = await db.ShutterTests.AsNoTracking().Include(row => row.Readings).Where(row => row.RepairId == repairId).ToListAsync(cancel);
        var (before, after) = (Newest(all, Phase.AsReceived), Newest(all, Phase.AfterService));
        var wanted = new[] { before, after }.OfType<ShutterTest>().SelectMany(test => test.Readings).Where(Counts).Select(row => row.RecordingId!.Value).Distinct().ToList();
        if (wanted.Count == 0)
            return new RecordedSessions([], [], []);
        var kept = await db.Recordings.AsNoTracking().Where(row => wanted.Contains(row.Id)).Select(row => new { row.Id, row.Result }).ToListAsync(cancel);
        var summaries = kept.ToDictionary(row => row.Id, row => RecordingSummary.Read(row.Result));
        var marks = new[] { before, after }.OfType<ShutterTest>().SelectMany(test => test.Readings).Where(Counts).Select(row => row.MarkedSpeed).Distinct()
            .Select(text => MarkedSpeed.Parse(text).Mark).OfType<MarkedSpeed>().OrderByDescending(mark => mark.LiteralSeconds).ToList();
        return new RecordedSessions(
            [.. marks.Select(mark => new SpeedTraceFacts { MarkedSpeed = ShutterFigures.Shown(mark), AsReceived = Trace(before, mark, summaries), AfterService = Trace(after, mark, summaries) })],
            [.. marks.SelectMany(mark => new[] { CurtainsOf(before, false, mark, summaries), CurtainsOf(after, true, mark, summaries) }).OfType<CurtainRowFacts>()],
            [.. marks.SelectMany(mark => new[] { Contact(before, false, mark, summaries), Contact(after, true, mark, summaries) }).OfType<FlashRowFacts>()]);
    }

    private static ShutterTest? Newest(IEnumerable<ShutterTest> tests, Phase phase) => tests
        .Where(test => test.Phase == phase && test.Readings.Any(reading => reading.StruckOutReason is null)).MaxBy(test => test.MeasuredAt);

    private static bool Counts(Reading reading) => reading.RecordingId is not null && reading.StruckOutReason is null;

    private static List<(RecordingSummary Summary, ExposureSummary Exposure)> Of(ShutterTest? test, MarkedSpeed mark, Dictionary<Guid, RecordingSummary> summaries) =>
        [.. (test?.Readings ?? []).Where(row => Counts(row) && row.MarkedSpeed == mark.Text).OrderBy(row => row.Position)
            .Select(row => (Summary: summaries[row.RecordingId!.Value], Number: row.Exposure))
            .Select(pair => (pair.Summary, Exposure: pair.Summary.Exposures.FirstOrDefault(one => one.Number == pair.Number)))
            .Where(pair => pair.Exposure is not null).Select(pair => (pair.Summary, pair.Exposure!))];

    /// <summary>The exposure in the middle of those measured stands for all.</summary>
    private static TraceFacts? Trace(ShutterTest? test, MarkedSpeed mark, Dictionary<Guid, RecordingSummary> summaries)
    {
        var all = Of(test, mark, summaries).Select(pair => pair.Exposure).OrderBy(one => one.ReadingSeconds).ToList();
        return all.Count == 0 ? null : all[all.Count / 2].Trace;
    }

    /// <summary>A release of another channel belongs to the exposure it overlaps.</summary>
    private static IEnumerable<T> Beside<T>(
        ShutterTest? test, MarkedSpeed mark, Dictionary<Guid, RecordingSummary> summaries, Func<RecordingSummary, IEnumerable<T>> pick, Func<T, double> at)
        where T : class =>
        Of(test, mark, summaries).Select(pair => pick(pair.Summary)
                .Where(one => Math.Abs(at(one) - pair.Exposure.Crossings.Opening50Seconds) < 0.2 + pair.Exposure.TotalSeconds)
                .MinBy(one => Math.Abs(at(one) - pair.Exposure.Crossings.Opening50Seconds)))
            .OfType<T>();

    private static CurtainRowFacts? CurtainsOf(ShutterTest? test, bool after, MarkedSpeed mark, Dictionary<Guid, RecordingSummary> summaries)
    {
        var runs = Beside(test, mark, summaries, summary => summary.FocalPlane, run => run.AtSeconds).ToList();
        if (runs.Count == 0)
            return null;
        return new CurtainRowFacts
        {
            MarkedSpeed = ShutterFigures.Shown(mark),
            AfterService = after,
            Count = runs.Count,
            FirstCurtainMilliseconds = Mean(runs, run => run.FirstCurtain?.WholeFrameSeconds * 1000),
            SecondCurtainMilliseconds = Mean(runs, run => run.SecondCurtain?.WholeFrameSeconds * 1000),
            Points = [.. runs[0].Points.Select(point => new PointFacts(
                point.PositionMm, Mean(runs, run => At(run, point.Role)?.Seconds * 1000) ?? 0, Mean(runs, run => Slit(run, point.Role))))],
            NonUniformityStops = runs.Exists(run => run.NonUniformityStops is null) ? null : Mean(runs, run => run.NonUniformityStops),
            IsCapping = runs.Exists(run => run.IsCapping),
        };
    }

    private static PointExposure? At(FocalPlaneFigures run, ChannelRole role) => run.Points.FirstOrDefault(point => point.Role == role);

    /// <summary>A slit as wide as the frame is none: the whole picture is open at once.</summary>
    private static double? Slit(FocalPlaneFigures run, ChannelRole role) =>
        At(run, role)?.SlitWidthMm is { } slit && run.FirstCurtain is { } first && slit < first.WholeFrameSeconds * first.SpeedMmPerSecond ? slit : null;

    private static FlashRowFacts? Contact(ShutterTest? test, bool after, MarkedSpeed mark, Dictionary<Guid, RecordingSummary> summaries)
    {
        var contacts = Beside(test, mark, summaries, summary => summary.Flash, flash => flash.AtSeconds).ToList();
        if (contacts.Count == 0)
            return null;
        return new FlashRowFacts
        {
            MarkedSpeed = ShutterFigures.Shown(mark),
            AfterService = after,
            Contact = contacts[0].Kind == FlashContactKind.NotStated ? null : contacts[0].Kind.ToString(),
            Count = contacts.Count,
            ToFullyOpenMilliseconds = contacts.Average(flash => flash.ContactToFullyOpenSeconds) * 1000,
            HoldMilliseconds = Mean(contacts, flash => flash.HoldSeconds * 1000),
            // The worst of them: a contact that fails once is a contact that fails.
            Verdict = ShutterSessions.Of(contacts.Max(flash => flash.Verdict)),
        };
    }

    private static double? Mean<T>(IEnumerable<T> all, Func<T, double?> pick)
    {
        var values = all.Select(pick).OfType<double>().ToList();
        return values.Count == 0 ? null : values.Average();
    }
}
