using RepairShop.Measurement.Signals;
using RepairShop.Testing.Signals;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>
/// One line of the accuracy table: its conditions, its bar, and a few hundred recordings drawn at random from a fixed seed. Each holds a
/// reference exposure of 1/30 s (left out on request) and then one of the marks, at random places between samples.
/// </summary>
public sealed record AccuracyRow(string Name, double BarSamples, double BarShare)
{
    private static readonly double[] AllMarks = [1, 1 / 2.0, 1 / 4.0, 1 / 8.0, 1 / 15.0, 1 / 30.0, 1 / 60.0, 1 / 125.0, 1 / 250.0, 1 / 500.0];

    /// <summary>A line stands on no fewer exposures than this.</summary>
    public const int LeastSignals = 200;

    /// <summary>How many recordings.</summary>
    public int Signals { get; init; } = LeastSignals;

    public int Seed { get; init; }

    public double RateHz { get; init; } = 48_000;

    public double NoiseDecibels { get; init; } = 40;

    public NoiseColour Colour { get; init; }

    public bool IsAc { get; init; }

    /// <summary>The corner lies between these, evenly in its logarithm.</summary>
    public (double Low, double High) CornerHz { get; init; } = (0.5, 10);

    /// <summary>A second high-pass behind the first, drawn likewise.</summary>
    public bool HasSecondCorner { get; init; }

    public bool HasHum { get; init; }

    public bool HasBounce { get; init; }

    /// <summary>The blades turn back before they are fully open.</summary>
    public bool NeverRests { get; init; }

    /// <summary>Closing takes 2 to 12 ms, as of tired blades.</summary>
    public bool IsLazy { get; init; }

    /// <summary>No reference before it: t_e stands on its own plateau, where it has one.</summary>
    public bool IsAlone { get; init; }

    /// <summary>Three more exposures follow, of any speed.</summary>
    public bool HasMore { get; init; }

    /// <summary>Only 5 to 30 ms of quiet before and after.</summary>
    public bool IsCutShort { get; init; }

    public (double Low, double High) Level { get; init; } = (0.02, 0.8);

    public double MostOffset { get; init; } = 0.1;

    public int? Bits { get; init; }

    public IReadOnlyList<double> Marks { get; init; } = AllMarks;

    public IReadOnlyList<BladeLaw> Laws { get; init; } = BladeLaw.All;

    /// <summary>What was measured where a bar is not kept, said in the open; null where it is kept.</summary>
    public (double Rms, double Greatest)? WidthMissed { get; init; }

    /// <inheritdoc cref="WidthMissed"/>
    public (double Rms, double Greatest)? EffectiveMissed { get; init; }

    public override string ToString() => Name;

    /// <summary>Errors of every exposure, in units of the bar.</summary>
    public (List<double> Width, List<double> Effective, List<string> Missing) Errors()
    {
        var (width, effective, missing) = (new List<double>(), new List<double>(), new List<string>());
        for (var i = 0; i < Signals; i++)
        {
            var (profiles, samples) = Draw(i);
            var result = RecordingAnalysis.Analyse(Recording.Mono(RateHz, samples), IsAlone ? Rig.OneSensor : new() { ReferenceExposure = 1 });
            if (result.Exposures.Count != profiles.Count)
            {
                missing.Add($"signal {i}, {profiles[^1].Width50Seconds:0.0000} s: {result.Outcome}, {result.Exposures.Count} of {profiles.Count} exposures");
                continue;
            }

            for (var k = IsAlone ? 0 : 1; k < profiles.Count; k++)
            {
                var (truth, found) = (profiles[k], result.Exposures[k]);
                width.Add((found.Width50Seconds - truth.Width50Seconds) / Bar(truth.Width50Seconds));
                if (found.EffectiveSeconds is { } seconds) effective.Add((seconds - truth.EffectiveSeconds) / Bar(truth.EffectiveSeconds));
                else if (!IsAlone) missing.Add($"signal {i}, {truth.Width50Seconds:0.0000} s: no effective time");
            }
        }

        return (width, effective, missing);
    }

    private double Bar(double seconds) => Math.Max(BarSamples / RateHz, BarShare * seconds);

    /// <summary>One recording of the line and what it truly holds.</summary>
    public (List<ShutterProfile> Profiles, float[] Samples) Draw(int index)
    {
        var random = new Random(Seed + index);
        double Between(double low, double high) => low + (high - low) * random.NextDouble();
        double Ratio((double Low, double High) range) => Math.Exp(Between(Math.Log(range.Low), Math.Log(range.High)));
        var (opens, closes) = (Laws[random.Next(Laws.Count)], Laws[random.Next(Laws.Count)]);
        var (opening, closing) = (Between(0.0002, 0.0012), IsLazy ? Between(0.002, 0.012) : Between(0.0002, 0.0015));
        var profiles = new List<ShutterProfile>();
        var start = IsCutShort ? Between(0.005, 0.03) : Between(0.06, 0.5);
        if (!IsAlone) Add(ShutterProfile.Of(start, opening, 1 / 30.0, closing, opens, closes));
        for (var i = 0; i < (HasMore ? 4 : 1); i++)
        {
            var mark = Marks[i == 0 ? index % Marks.Count : random.Next(Marks.Count)];
            (double, double, double)? bounce = HasBounce ? (Between(0.0003, 0.005), 0.3, Between(0.0008, 0.0025)) : null;
            var (up, down) = (Math.Min(opening, 0.45 * mark), Math.Min(closing, 0.45 * mark));
            Add(NeverRests
                ? ShutterProfile.Of(start, mark * Between(0.7, 1.1), 0, mark * Between(0.7, 1.3), opens, closes, Between(0.7, 0.95), bounce)
                : ShutterProfile.Of(start, up, mark - (up + down) / 2, down, opens, closes, bounce: bounce));
        }

        var synth = new SignalSynth
        {
            Seed = Seed + index,
            SampleRateHz = RateHz,
            DurationSeconds = profiles[^1].LastSeconds + (IsCutShort ? Between(0.006, 0.03) : Between(0.06, 0.5)),
            Profiles = profiles,
            Level = Ratio(Level),
            Inverted = random.Next(2) == 1,
            Offset = Between(-MostOffset, MostOffset),
            CornerHz = IsAc ? Ratio(CornerHz) : null,
            SecondCornerHz = HasSecondCorner ? Ratio(CornerHz) : null,
            NoiseDecibels = NoiseDecibels,
            Colour = Colour,
            Bits = Bits,
            Hum = HasHum ? ((random.Next(2) == 0 ? 50 : 60) + Between(-0.05, 0.05), 0.1) : null,
        };
        return (profiles, synth.Samples());

        void Add(ShutterProfile profile)
        {
            profiles.Add(profile);
            start = profile.LastSeconds + Between(0.3, 0.6);
        }
    }
}
