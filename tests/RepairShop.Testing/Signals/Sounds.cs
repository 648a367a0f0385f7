namespace RepairShop.Testing.Signals;

/// <summary>What a microphone input may hold that is no shutter. The same seed gives the same samples.</summary>
public static class Sounds
{
    public const double RateHz = 48_000;
    private const double Tau = 2 * Math.PI;

    /// <summary>Every kind by its name, from a seed.</summary>
    public static readonly IReadOnlyDictionary<string, Func<int, float[]>> All = new Dictionary<string, Func<int, float[]>>
    {
        ["speech"] = Speech,
        ["whispered speech"] = Whisper,
        ["chords"] = Chords,
        ["plucked strings"] = Plucked,
        ["drums"] = Drums,
        ["sweep"] = Sweep,
        ["click train"] = seed => Clicks(seed, RandomClick),
        ["one-sample clicks"] = seed => Clicks(seed, (_, i) => i == 0 ? 0.6 : 0),
        ["decaying clicks"] = seed => Clicks(seed, (_, i) => 0.6 * Math.Exp(-i / 40.0)),
        ["ringing clicks"] = seed => Clicks(seed, (_, i) => 0.6 * Math.Exp(-i / 80.0) * Math.Cos(i * 0.3)),
        ["square clicks"] = seed => Clicks(seed, (_, i) => i < 40 ? 0.5 : 0),
        ["switch-on thump"] = Thump,
        ["step"] = Step,
        ["handling noise"] = Handling,
        ["footsteps"] = Footsteps,
    };

    /// <summary>Glottal pulses through three formants, in syllables with pauses.</summary>
    public static float[] Speech(int seed) => Voice(seed, voiced: true);

    public static float[] Whisper(int seed) => Voice(seed, voiced: false);

    public static float[] WhiteNoise(int seed, double level) => Make(seed, 2, (random, _) => level * SignalSynth.Gauss(random));

    public static float[] Hum(int seed, double frequencyHz, double level, double noise = 0.001)
    {
        var random = new Random(seed);
        var phases = Enumerable.Range(0, 7).Select(_ => Tau * random.NextDouble()).ToArray();
        var shares = phases.Select((_, i) => i == 0 ? 1 : random.NextDouble() / (i + 1)).ToArray();
        return Make(seed, 2, (r, t) => level * shares.Select((a, i) => a * Math.Sin(Tau * frequencyHz * (i + 1) * t + phases[i])).Sum() + noise * SignalSynth.Gauss(r));
    }

    private static float[] Voice(int seed, bool voiced)
    {
        var random = new Random(seed);
        var samples = new double[(int)(3 * RateHz)];
        var at = (int)(0.15 * RateHz);
        while (at < samples.Length - RateHz / 2)
        {
            var length = (int)((0.08 + 0.2 * random.NextDouble()) * RateHz);
            var pitch = 90 + 120 * random.NextDouble();
            double[] formants = [300 + 500 * random.NextDouble(), 900 + 1200 * random.NextDouble(), 2300 + 900 * random.NextDouble()];
            var source = new double[length];
            double phase = 0;
            for (var i = 0; i < length; i++)
            {
                phase += pitch * (1 - 0.1 * i / length) / RateHz;
                if (voiced && phase >= 1) (source[i], phase) = (1, phase - 1);
                if (!voiced || random.NextDouble() < 0.02) source[i] += 0.1 * SignalSynth.Gauss(random);
            }

            foreach (var formant in formants) Resonate(source, formant, 90);
            var top = Math.Max(1e-9, source.Max(Math.Abs));
            for (var i = 0; i < length; i++) samples[at + i] += 0.4 * source[i] / top * Math.Sin(Math.PI * i / length);
            at += length + (int)((0.02 + (random.Next(4) == 0 ? 0.4 : 0.05) * random.NextDouble()) * RateHz);
        }

        return [.. samples.Select(s => (float)(s + 0.001 * SignalSynth.Gauss(random)))];
    }

    private static void Resonate(double[] signal, double frequencyHz, double bandwidthHz)
    {
        var r = Math.Exp(-Math.PI * bandwidthHz / RateHz);
        var (a1, a2) = (2 * r * Math.Cos(Tau * frequencyHz / RateHz), -r * r);
        double y1 = 0, y2 = 0;
        for (var i = 0; i < signal.Length; i++)
        {
            var y = signal[i] * (1 - r) + a1 * y1 + a2 * y2;
            (y2, y1, signal[i]) = (y1, y, y);
        }
    }

    private static float[] Chords(int seed) => Notes(seed, 0.6, 3, (t, f) => Math.Min(1, t / 0.01) * Math.Exp(-t / 0.5) * (Math.Sin(Tau * f * t) + 0.4 * Math.Sin(2 * Tau * f * t)));

    private static float[] Plucked(int seed) => Notes(seed, 0.35, 1, (t, f) => Math.Exp(-t / 0.15) * Math.Sin(Tau * f * t));

    private static float[] Drums(int seed) => Notes(seed, 0.4, 1, (t, f) => Math.Exp(-t / 0.08) * Math.Sin(Tau * (50 + f / 8 * Math.Exp(-t / 0.03)) * t));

    private static float[] Notes(int seed, double interval, int voices, Func<double, double, double> note)
    {
        var random = new Random(seed);
        var events = new List<(double At, double Frequency, double Level)>();
        for (var t = 0.2; t < 2.8; t += interval * (0.7 + 0.6 * random.NextDouble()))
            for (var v = 0; v < voices; v++)
                events.Add((t, 80 * Math.Pow(2, 3 * random.NextDouble()), (0.2 + 0.3 * random.NextDouble()) / voices));
        return Make(seed, 3, (r, t) => events.Where(e => t >= e.At && t < e.At + 1.5).Sum(e => e.Level * note(t - e.At, e.Frequency)) + 0.001 * SignalSynth.Gauss(r));
    }

    private static float[] Sweep(int seed) => Make(seed, 2, (r, t) => 0.4 * Math.Sin(Tau * (20 * t + 400 * t * t)) + 0.001 * SignalSynth.Gauss(r));

    private static float[] Clicks(int seed, Func<Random, int, double> click)
    {
        var random = new Random(seed);
        var interval = (int)((0.04 + 0.12 * random.NextDouble()) * RateHz);
        var samples = new float[(int)(2 * RateHz)];
        for (var i = 0; i < samples.Length; i++) samples[i] = (float)(0.001 * SignalSynth.Gauss(random));
        for (var at = interval; at + 1000 < samples.Length; at += interval)
            for (var i = 0; i < 900; i++) samples[at + i] += (float)click(random, i);
        return samples;
    }

    private static double RandomClick(Random random, int i) => 0.5 * Math.Exp(-i / 60.0) * SignalSynth.Gauss(random);

    private static float[] Thump(int seed) => Make(seed, 2, (r, t) => (t < 0.5 ? 0 : 0.6 * Math.Exp(-(t - 0.5) / 0.05)) + 0.001 * SignalSynth.Gauss(r));

    private static float[] Step(int seed) => Make(seed, 2, (r, t) => (t < 0.7 ? 0 : 0.3) + 0.001 * SignalSynth.Gauss(r));

    private static float[] Handling(int seed)
    {
        var random = new Random(seed);
        double slow = 0, slower = 0;
        return Make(seed, 3, (r, t) =>
        {
            slow += (SignalSynth.Gauss(r) - slow) * 0.004;
            slower += (slow * (Math.Sin(3 * t) > 0.3 ? 4 : 0.3) - slower) * 0.01;
            return Math.Clamp(1.5 * slower, -0.9, 0.9) + 0.001 * SignalSynth.Gauss(random);
        });
    }

    private static float[] Footsteps(int seed)
    {
        var random = new Random(seed);
        return Make(seed, 3, (r, t) =>
        {
            var since = t % 0.55;
            return 0.4 * Math.Exp(-since / 0.04) * Math.Sin(Tau * 35 * since) + 0.1 * Math.Exp(-since / 0.01) * SignalSynth.Gauss(r) + 0.001 * SignalSynth.Gauss(random);
        });
    }

    private static float[] Make(int seed, double seconds, Func<Random, double, double> value)
    {
        var random = new Random(seed);
        var samples = new float[(int)(seconds * RateHz)];
        for (var n = 0; n < samples.Length; n++) samples[n] = (float)value(random, n / RateHz);
        return samples;
    }
}
