namespace RepairShop.Testing.Signals;

/// <summary>Makes a light sensor's recording from profiles whose truth is known. The same settings and seed give the same samples.</summary>
public sealed record SignalSynth
{
    public double SampleRateHz { get; init; } = 48_000;

    public double DurationSeconds { get; init; } = 1;

    public required IReadOnlyList<ShutterProfile> Profiles { get; init; }

    /// <summary>Signal when fully open.</summary>
    public double Level { get; init; } = 0.5;

    /// <summary>Light drives the signal down.</summary>
    public bool Inverted { get; init; }

    public double Offset { get; init; }

    /// <summary>Corner of the input's high-pass; null for DC.</summary>
    public double? CornerHz { get; init; }

    /// <summary>Open level over the noise's standard deviation; null for no noise.</summary>
    public double? NoiseDecibels { get; init; }

    /// <summary>Hum: frequency, and amplitude of the sum over the open level.</summary>
    public (double FrequencyHz, double Share)? Hum { get; init; }

    /// <summary>Lamp flicker while open: frequency and depth.</summary>
    public (double FrequencyHz, double Depth)? Ripple { get; init; }

    /// <summary>Overdriven beyond this; null for no limit.</summary>
    public double? Ceiling { get; init; }

    public int Seed { get; init; }

    public float[] Samples()
    {
        var random = new Random(Seed);
        var count = (int)Math.Round(DurationSeconds * SampleRateHz);
        var highPass = CornerHz is { } corner ? new HighPass(Profiles, 1 / (2 * Math.PI * corner)) : null;
        var hum = Hum is { } h ? HumWave(h.Share * Level, random) : [];
        var ripplePhase = random.NextDouble() * 2 * Math.PI;
        var noise = NoiseDecibels is { } decibels ? Level * Math.Pow(10, -decibels / 20) : 0;
        var samples = new float[count];
        for (var n = 0; n < count; n++)
        {
            var t = n / SampleRateHz;
            var value = highPass is not null ? highPass.At(t) : Light(t);
            if (Ripple is { } r && highPass is null) value *= 1 + r.Depth * Math.Sin(2 * Math.PI * r.FrequencyHz * t + ripplePhase);
            value *= Level;
            for (var i = 0; i < hum.Length; i++)
                value += hum[i].Amplitude * Math.Sin(2 * Math.PI * (i + 1) * Hum!.Value.FrequencyHz * t + hum[i].Phase);
            if (noise > 0) value += noise * Gauss(random);
            value = (Inverted ? -value : value) + Offset;
            if (Ceiling is { } ceiling) value = Math.Clamp(value, -ceiling, ceiling);
            samples[n] = (float)value;
        }

        return samples;
    }

    public static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private double Light(double t)
    {
        double light = 0;
        foreach (var profile in Profiles)
            if (t >= profile.StartSeconds && t < profile.LastSeconds) light += profile.At(t);
        return light;
    }

    /// <summary>Ground wave and up to six harmonics at random phases, scaled so that the amplitudes' root sum of squares is what was asked.</summary>
    private static (double Amplitude, double Phase)[] HumWave(double amplitude, Random random)
    {
        var harmonics = 1 + random.Next(7);
        var waves = new (double Amplitude, double Phase)[harmonics];
        for (var i = 0; i < harmonics; i++)
            waves[i] = (i == 0 ? 1 : random.NextDouble() * 0.6 / i, random.NextDouble() * 2 * Math.PI);
        var scale = amplitude / Math.Sqrt(waves.Sum(w => w.Amplitude * w.Amplitude));
        for (var i = 0; i < harmonics; i++) waves[i].Amplitude *= scale;
        return waves;
    }
}
