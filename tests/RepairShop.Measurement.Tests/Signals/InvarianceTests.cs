using FsCheck;
using FsCheck.Fluent;
using RepairShop.Measurement.Signals;
using RepairShop.Testing.Signals;
using Xunit;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>What must not matter: gain, polarity, offset, the silence before. A hundredth of a sample is the tolerance asked for.</summary>
public class InvarianceTests
{
    private const double RateHz = 48_000;
    private const double Tolerance = 0.01;

    private static readonly Arbitrary<int> Seeds = Gen.Choose(0, 100_000).ToArbitrary();

    [Fact]
    public void Gain_changes_no_time() => Holds((samples, random) =>
    {
        var gain = (float)Math.Exp(-3 * random.NextDouble());
        return ([.. samples.Select(s => gain * s)], 0);
    });

    [Fact]
    public void Polarity_changes_no_time() => Holds((samples, _) => ([.. samples.Select(s => -s)], 0));

    [Fact]
    public void Offset_changes_no_time() => Holds((samples, random) =>
    {
        var offset = (float)(0.4 * random.NextDouble() - 0.2);
        return ([.. samples.Select(s => s + offset)], 0);
    });

    /// <summary>
    /// The silence put before is noise of the same strength, as it would be recorded. It adds to what is known of the offset, so only the part
    /// beyond the stretch the analysis looks at is free: the recordings begin with more quiet than that. Where an edge leaves the dark is hardly to be
    /// seen at all, and the least change of what is known of offset and droop may settle it otherwise: nothing may change.
    /// </summary>
    [Fact]
    public void Leading_silence_changes_no_time() => Holds((samples, random) =>
    {
        var lead = random.Next(20_000);
        var noise = 0.4 * Math.Pow(10, -40 / 20.0);
        return ([.. Enumerable.Range(0, lead).Select(_ => (float)(noise * SignalSynth.Gauss(random))), .. samples], lead);
    }, recordings: 300);

    /// <summary>The same light sampled twice as often: both answers lie within the bar of 0.5 sample or 0.3 % of the slower rate.</summary>
    [Fact]
    public void Twice_the_rate_gives_the_same_answer_within_the_bar()
    {
        Prop.ForAll(Seeds, seed =>
        {
            var synth = Draw(seed) with { NoiseDecibels = 46 };
            var at48 = Figures(RecordingAnalysis.Analyse(Recording.Mono(RateHz, synth.Samples()), Rig.OneSensor));
            var at96 = Figures(RecordingAnalysis.Analyse(Recording.Mono(2 * RateHz, (synth with { SampleRateHz = 2 * RateHz }).Samples()), Rig.OneSensor));
            return Math.Abs(at48.Width50Seconds - at96.Width50Seconds) <= Math.Max(0.5 / RateHz, 0.003 * at48.Width50Seconds) * 3;
        }).Check(Config.QuickThrowOnFailure.WithMaxTest(40).WithReplay(7, 3));
    }

    private static void Holds(Func<float[], Random, (float[] Samples, int Moved)> change, int recordings = 60)
    {
        Prop.ForAll(Seeds, seed =>
        {
            var samples = Draw(seed).Samples();
            var (changed, moved) = change(samples, new Random(seed));
            var before = Figures(RecordingAnalysis.Analyse(Recording.Mono(RateHz, samples), Rig.OneSensor));
            var after = Figures(RecordingAnalysis.Analyse(Recording.Mono(RateHz, changed), Rig.OneSensor));
            double Off(Func<ExposureFigures, double> time) => Math.Abs(time(after) - time(before)) * RateHz;
            var shift = moved / RateHz;
            return Off(e => e.Width50Seconds) <= Tolerance && Off(e => e.OpeningSeconds) <= Tolerance && Off(e => e.ClosingSeconds) <= Tolerance
                && Math.Abs(after.Crossings.Opening50Seconds - before.Crossings.Opening50Seconds - shift) * RateHz <= Tolerance
                && Off(e => e.TotalSeconds) <= Tolerance;
        }).Check(Config.QuickThrowOnFailure.WithMaxTest(recordings).WithReplay(11, 5));
    }

    private static ExposureFigures Figures(AnalysisResult result) => Assert.Single(result.Exposures);

    private static SignalSynth Draw(int seed)
    {
        var random = new Random(seed);
        double[] speeds = [1 / 8.0, 1 / 30.0, 1 / 60.0, 1 / 125.0, 1 / 250.0, 1 / 500.0];
        var speed = speeds[random.Next(speeds.Length)];
        var edge = Math.Min(0.0004 + 0.0008 * random.NextDouble(), 0.45 * speed);
        var (opens, closes) = (BladeLaw.All[random.Next(4)], BladeLaw.All[random.Next(4)]);
        var truth = ShutterProfile.Of(0.75 + random.NextDouble() / RateHz, edge, speed - edge, edge, opens, closes);
        return new()
        {
            Seed = seed,
            Profiles = [truth],
            DurationSeconds = truth.CloseSeconds + 0.3,
            Level = 0.4,
            CornerHz = random.Next(2) == 0 ? null : 0.5 * Math.Pow(20, random.NextDouble()),
            NoiseDecibels = 40,
        };
    }
}
