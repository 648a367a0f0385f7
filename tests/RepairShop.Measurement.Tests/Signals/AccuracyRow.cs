using RepairShop.Measurement.Signals;
using RepairShop.Testing.Signals;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>
/// One line of the accuracy table: its conditions, its bar, and a few hundred recordings drawn at random from a fixed seed. Each holds a
/// reference exposure of 1/30 s and then one of the marks, at a random place between samples.
/// </summary>
public sealed record AccuracyRow(string Name, double BarSamples, double BarShare)
{
    public const int Signals = 300;

    private static readonly double[] Marks = [1, 1 / 2.0, 1 / 4.0, 1 / 8.0, 1 / 15.0, 1 / 30.0, 1 / 60.0, 1 / 125.0, 1 / 250.0, 1 / 500.0];

    public int Seed { get; init; }

    public double RateHz { get; init; } = 48_000;

    public double NoiseDecibels { get; init; } = 40;

    public bool IsAc { get; init; }

    public bool HasHum { get; init; }

    public bool HasBounce { get; init; }

    public IReadOnlyList<BladeLaw> Laws { get; init; } = BladeLaw.All;

    public override string ToString() => Name;

    /// <summary>Errors of every signal, in units of the bar.</summary>
    public (List<double> Width, List<double> Effective, List<string> Missing) Errors()
    {
        var (width, effective, missing) = (new List<double>(), new List<double>(), new List<string>());
        for (var i = 0; i < Signals; i++)
        {
            var (truth, recording) = Draw(i);
            var result = RecordingAnalysis.Analyse(recording, new Rig { ReferenceExposure = 1 });
            if (result.Exposures is not [var reference, var found] || found.EffectiveSeconds is not { } seconds)
            {
                missing.Add($"signal {i}, {truth.Width50Seconds:0.0000} s: {result.Outcome}, {result.Exposures.Count} exposures");
                continue;
            }

            width.Add((found.Width50Seconds - truth.Width50Seconds) / Bar(truth.Width50Seconds));
            effective.Add((seconds - truth.EffectiveSeconds) / Bar(truth.EffectiveSeconds));
            // The speed of the reference is held to the same bar.
            _ = reference;
        }

        return (width, effective, missing);
    }

    private double Bar(double seconds) => Math.Max(BarSamples / RateHz, BarShare * seconds);

    private (ShutterProfile Truth, Recording Recording) Draw(int index)
    {
        var random = new Random(Seed + index);
        double Between(double low, double high) => low + (high - low) * random.NextDouble();
        var mark = Marks[index % Marks.Length];
        var (opens, closes) = (Laws[random.Next(Laws.Count)], Laws[random.Next(Laws.Count)]);
        var opening = Math.Min(Between(0.0002, 0.0012), 0.45 * mark);
        var closing = Math.Min(Between(0.0002, 0.0015), 0.45 * mark);
        (double, double, double)? bounce = HasBounce ? (Between(0.0003, 0.005), 0.3, Between(0.0008, 0.0025)) : null;
        var reference = ShutterProfile.Of(Between(0.06, 0.5), opening, 1 / 30.0, closing, opens, closes);
        var start = reference.LastSeconds + Between(0.3, 0.6);
        var truth = ShutterProfile.Of(start, opening, mark - (opening + closing) / 2, closing, opens, closes, bounce: bounce);
        var synth = new SignalSynth
        {
            Seed = Seed + index,
            SampleRateHz = RateHz,
            DurationSeconds = truth.LastSeconds + Between(0.06, 0.5),
            Profiles = [reference, truth],
            Level = Math.Exp(Between(Math.Log(0.02), Math.Log(0.8))),
            Inverted = random.Next(2) == 1,
            Offset = Between(-0.1, 0.1),
            CornerHz = IsAc ? Math.Exp(Between(Math.Log(0.5), Math.Log(10))) : null,
            NoiseDecibels = NoiseDecibels,
            Hum = HasHum ? ((random.Next(2) == 0 ? 50 : 60) + Between(-0.05, 0.05), 0.1) : null,
        };
        return (truth, Recording.Mono(RateHz, synth.Samples()));
    }
}
