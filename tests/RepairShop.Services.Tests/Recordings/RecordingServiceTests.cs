using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;
using RepairShop.Domain.ShutterTests;
using RepairShop.Measurement.Signals;
using RepairShop.Services.Recordings;
using RepairShop.Services.ShutterTests;
using RepairShop.Testing;
using RepairShop.Testing.Recordings;
using Xunit;

namespace RepairShop.Services.Tests.Recordings;

public sealed class RecordingServiceTests(PostgresServer server)
{
    private const int Rate = 48_000;

    /// <summary>A quarter of a sample or 0.1 %, three times over for a single error: what a DC-coupled signal at 48 dB is held to.</summary>
    private static double Bar(double seconds) => 3 * Math.Max(0.25 / Rate, 0.001 * seconds);

    private static CancellationToken Ct => Workshop.Cancel;

    private static byte[] Wav(params double[] widths) =>
        WavBytes.Of(Rate, WavSamples.Pcm16, false, LightPulses.Signal(Rate, LightPulses.Of(widths)));

    private static Task<Result<RecordingKept>> Add(
        Workshop shop, Guid repair, byte[] file, string marks, RigFacts? rig = null, Guid? test = null, Phase phase = Phase.AsReceived) =>
        shop.Do<RecordingService, Result<RecordingKept>>(recordings => recordings.AddAsync(
            repair, phase, test, new RecordingSent("bench.wav", new MemoryStream(file), rig ?? new RigFacts(), marks, ""), Ct));

    private static Task<RecordingView> View(Workshop shop, Guid repair, Guid id) =>
        shop.Do<RecordingReadService, RecordingView>(async read => (await read.GetAsync(repair, id, Ct)).Value!);

    private static Task<List<Reading>> Readings(Workshop shop) => shop.Db(db => db.Readings.AsNoTracking().OrderBy(row => row.Position).ToListAsync(Ct));

    [Fact]
    public async Task Each_exposure_becomes_a_reading_with_the_recordings_own_uncertainty_and_the_file_is_kept()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        double[] widths = [1 / 128.0, 1.02 / 128, 0.99 / 128];
        var file = Wav(widths);
        var kept = await Add(shop, repair, file, "1/125");
        Assert.True(kept.IsDone, kept.Failure?.Message);
        Assert.Equal((3, 3), (kept.Value.Exposures, kept.Value.Assigned));
        var readings = await Readings(shop);
        for (var i = 0; i < widths.Length; i++)
        {
            Assert.InRange(readings[i].Seconds, widths[i] - Bar(widths[i]), widths[i] + Bar(widths[i]));
            Assert.Equal(("1/125", ReadingKind.Effective, kept.Value.Id, i + 1), (readings[i].MarkedSpeed, readings[i].Kind, readings[i].RecordingId, readings[i].Exposure));
            Assert.Equal(1.0 / Rate, readings[i].StepSeconds!.Value, 1e-12);
            Assert.True(readings[i].TriggerSeconds > 0);
        }

        var row = (await shop.Do<ShutterTestService, ShutterForm>(async tests => (await tests.FormAsync(repair, Phase.AsReceived, null, false, Ct)).Value!))
            .Rows.Single(one => one.Mark == "1/125");
        Assert.Equal(TimeMeaning.Effective, row.Meaning);
        Assert.Equal(3, row.Figures!.Uncertainty!.Terms.Count(term => term.StandardUncertainty > 0));
        var stored = await shop.Do<RecordingReadService, byte[]>(async read =>
        {
            await using var content = (await read.OpenAsync(repair, kept.Value.Id, Ct)).Value.Content;
            using var bytes = new MemoryStream();
            await content.CopyToAsync(bytes, Ct);
            return bytes.ToArray();
        });
        Assert.Equal(file, stored);
    }

    [Fact]
    public async Task One_file_may_hold_several_speeds_and_each_exposure_can_be_given_another()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var kept = (await Add(shop, repair, Wav(1 / 8.0, 1 / 8.0, 1 / 60.0), "1/8 ×2 1/60")).Value!;
        Assert.Equal(["1/8", "1/8", "1/60"], (await Readings(shop)).Select(reading => reading.MarkedSpeed));
        var done = await shop.Do<RecordingService, Result>(recordings => recordings.AssignAsync(
            repair, kept.Id, new Dictionary<int, string> { [1] = "1/8", [2] = "", [3] = "1/30" }, Ct));
        Assert.True(done.IsDone);
        var live = (await Readings(shop)).Where(reading => reading.StruckOutReason is null).ToList();
        Assert.Equal([("1/8", 1), ("1/30", 3)], live.Select(reading => (reading.MarkedSpeed, reading.Exposure!.Value)));
        Assert.Equal(4, (await Readings(shop)).Count);
        Assert.Equal(new MarkNotTimed("B"), (await shop.Do<RecordingService, Result>(recordings =>
            recordings.AssignAsync(repair, kept.Id, new Dictionary<int, string> { [2] = "B" }, Ct))).Failure);
    }

    [Fact]
    public async Task Analysed_again_the_old_readings_are_struck_out_and_kept_and_those_struck_out_by_hand_stay_so()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var kept = (await Add(shop, repair, Wav(1 / 30.0, 1 / 30.0), "1/30")).Value!;
        var bad = (await Readings(shop))[1].Id;
        Assert.True((await shop.Do<ShutterTestService, Result>(tests => tests.StrikeOutAsync(repair, bad, "lamp moved", Ct))).IsDone);
        await shop.Db(db => db.Recordings.ExecuteUpdateAsync(row => row.SetProperty(one => one.AnalysisVersion, "0"), Ct));
        var old = await View(shop, repair, kept.Id);
        Assert.True(old.IsOld);
        Assert.True((await shop.Do<RecordingService, Result>(recordings => recordings.AnalyseAgainAsync(repair, kept.Id, old.Rig, old.Version, Ct))).IsDone);
        var now = await View(shop, repair, kept.Id);
        Assert.Equal((false, RecordingAnalysis.Version), (now.IsOld, now.AnalysisVersion));
        var readings = await Readings(shop);
        Assert.Equal(4, readings.Count);
        Assert.Equal([(int?)1], readings.Where(reading => reading.StruckOutReason is null).Select(reading => reading.Exposure));
        Assert.StartsWith($"Analysed again: version {RecordingAnalysis.Version} in place of 0.", readings[0].StruckOutReason, StringComparison.Ordinal);
        Assert.Equal("lamp moved", readings[3].StruckOutReason);
        // Once more changes nothing but the strike-outs: the exposure struck out by hand is not let in by the back door.
        Assert.True((await shop.Do<RecordingService, Result>(recordings => recordings.AnalyseAgainAsync(repair, kept.Id, now.Rig, now.Version, Ct))).IsDone);
        Assert.Equal([(int?)1], (await Readings(shop)).Where(reading => reading.StruckOutReason is null).Select(reading => reading.Exposure));
    }

    [Fact]
    public async Task What_gives_no_figure_is_not_kept_and_says_why()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var silent = WavBytes.Of(Rate, WavSamples.Pcm16, false, new float[Rate]);
        Assert.Equal("silent", ((await Add(shop, repair, silent, "1/125")).Failure as NoFigures)?.Name);
        Assert.Equal(new FileEmpty(), (await Add(shop, repair, [], "1/125")).Failure);
        Assert.Equal(new MarksDontFit(2, 3), (await Add(shop, repair, Wav(0.01, 0.01, 0.01), "1/125 1/60")).Failure);
        Assert.IsType<MarksNotRead>((await Add(shop, repair, Wav(0.01), "125")).Failure);
        Assert.Equal(new ChannelsMissing(2, 1), (await Add(shop, repair, Wav(0.01), "1/125", new RigFacts { Roles = [ChannelRole.Light, ChannelRole.FlashContact] })).Failure);
        Assert.Equal(new ShutterTestNotFound(), (await Add(shop, repair, Wav(0.01), "1/125", test: Guid.CreateVersion7())).Failure);
        Assert.Equal((0, 0, 0), await shop.Db(async db => (await db.Recordings.CountAsync(Ct), await db.Readings.CountAsync(Ct), await db.ShutterTests.CountAsync(Ct))));
    }

    [Fact]
    public async Task Releases_of_one_stay_go_to_one_test_once_each_and_carry_the_fully_open_level()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        var stay = Guid.CreateVersion7();
        var triangle = LightPulses.Signal(Rate, [new LightPulse(0.6, 0.002, 0, 0.002)]);
        Task<Result<RecordingKept>> Release(Guid id, float[] signal, string mark) => shop.Do<RecordingService, Result<RecordingKept>>(recordings => recordings.AddAsync(
            repair, Phase.AsReceived, null, new RecordingSent("release.wav", new MemoryStream(WavBytes.Of(Rate, WavSamples.Ieee32, false, signal)), new RigFacts(), mark, "")
            {
                Id = id,
                CaptureSession = stay,
            }, Ct));
        var (slow, fast) = (Guid.CreateVersion7(), Guid.CreateVersion7());
        var first = await Release(slow, LightPulses.Signal(Rate, LightPulses.Of(0.25)), "1/4");
        var second = await Release(fast, triangle, "1/500");
        var again = await Release(fast, triangle, "1/500");
        Assert.True(second.IsDone, second.Failure?.Message);
        Assert.Equal((first.Value!.TestId, fast, first.Value.TestId), (second.Value.TestId, again.Value!.Id, again.Value.TestId));
        var readings = await Readings(shop);
        Assert.Equal(["1/4", "1/500"], readings.Select(reading => reading.MarkedSpeed));
        // A triangle of 2 ms either way lets through 2 ms of light at its own peak, which is the level carried.
        Assert.Equal(ReadingKind.Effective, readings[1].Kind);
        Assert.InRange(readings[1].Seconds, 0.00196, 0.00204);
        Assert.Equal(slow, (await View(shop, repair, fast)).Rig.CarriedFrom);
    }

    [Fact]
    public async Task The_service_record_says_recorded_and_carries_signals_and_closing_times()
    {
        await using var shop = await Workshop.OpenAsync(server);
        var repair = (await shop.Repair()).Id;
        Assert.True((await Add(shop, repair, Wav(1 / 100.0, 1 / 100.0), "1/125")).IsDone);
        Assert.True((await Add(shop, repair, Wav(1 / 128.0, 1 / 128.0), "1/125", phase: Phase.AfterService)).IsDone);
        var signals = await shop.Do<RecordingReadService, SignalsView>(read => read.SignalsAsync(repair, Ct));
        var speed = Assert.Single(signals.Traces);
        Assert.Equal("1/125", speed.MarkedSpeed);
        Assert.NotEmpty(speed.AsReceived!.Milliseconds);
        Assert.Equal(speed.AfterService!.Milliseconds.Count, speed.AfterService.Values.Count);
        var row = Assert.Single(signals.Rows);
        // Edges of 1 ms, straight: 10 to 90 % takes 0.8 ms; half a sample either way.
        Assert.InRange(row.AfterService!.ClosingMilliseconds!.Value, 0.8 - 0.011, 0.8 + 0.011);
        Assert.Equal(["scatter", "resolution", "trigger"], row.AfterService.Terms.Select(term => term.Name));
    }
}
