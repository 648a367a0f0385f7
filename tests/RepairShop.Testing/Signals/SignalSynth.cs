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

    /// <summary>Corner of a second high-pass behind the first, as of an amplifier behind a coupling capacitor; null for none.</summary>
    public double? SecondCornerHz { get; init; }

    /// <summary>Open level over the noise's standard deviation; null for no noise.</summary>
    public double? NoiseDecibels { get; init; }

    public NoiseColour Colour { get; init; }

    /// <summary>Hum: frequency, and amplitude of the sum over the open level.</summary>
    public (double FrequencyHz, double Share)? Hum { get; init; }

    /// <summary>Lamp flicker while open: frequency and depth.</summary>
    public (double FrequencyHz, double Depth)? Ripple { get; init; }

    /// <summary>Overdriven beyond this; null for no limit.</summary>
    public double? Ceiling { get; init; }

    /// <summary>Rounded to so many bits of a full scale of 1, as PCM holds it; null for not rounded.</summary>
    public int? Bits { get; init; }

    public int Seed { get; init; }

    public float[] Samples()
    {
        var random = new Random(Seed);
        var values = new double[(int)Math.Round(DurationSeconds * SampleRateHz)];
        AddLight(values, 2 * Math.PI * random.NextDouble());
        if (Hum is { } hum) AddHum(values, hum.FrequencyHz, hum.Share * Level, random);
        if (NoiseDecibels is { } decibels)
        {
            var (noise, deviation) = (new Noise(random, Colour, SampleRateHz), Level * Math.Pow(10, -decibels / 20));
            for (var n = 0; n < values.Length; n++) values[n] += deviation * noise.Next();
        }

        var samples = new float[values.Length];
        for (var n = 0; n < values.Length; n++)
        {
            var value = (Inverted ? -values[n] : values[n]) + Offset;
            if (Ceiling is { } ceiling) value = Math.Clamp(value, -ceiling, ceiling);
            if (Bits is { } bits) value = Rounded(value, Math.Pow(2, bits - 1));
            samples[n] = (float)value;
        }

        return samples;
    }

    public static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static double Rounded(double value, double steps) => Math.Clamp(Math.Round(value * steps), -steps, steps - 1) / steps;

    private void AddLight(double[] values, double ripplePhase)
    {
        if (CornerHz is { } corner)
        {
            if (Ripple is not null) throw new InvalidOperationException("Flicker through a high-pass has no closed form here.");
            var decay = 2 * Math.PI * corner;
            if (SecondCornerHz is not { } secondCorner)
            {
                new HighPass(Profiles, 1 / decay).AddTo(values, SampleRateHz, Level);
                return;
            }

            // s²/((s + a)(s + b)) = (a·s/(s + a) − b·s/(s + b))/(a − b), for a ≠ b.
            var second = 2 * Math.PI * secondCorner;
            new HighPass(Profiles, 1 / decay).AddTo(values, SampleRateHz, Level * decay / (decay - second));
            new HighPass(Profiles, 1 / second).AddTo(values, SampleRateHz, -Level * second / (decay - second));
            return;
        }

        foreach (var piece in Profiles.SelectMany(profile => profile.Pieces))
        {
            var (from, to) = (HighPass.FirstAt(piece.Start, SampleRateHz), Math.Min(values.Length, HighPass.FirstAt(piece.End, SampleRateHz)));
            for (var n = from; n < to; n++) values[n] += Level * piece.At(n / SampleRateHz);
        }

        if (Ripple is not { } ripple) return;
        for (var n = 0; n < values.Length; n++)
            if (values[n] != 0) values[n] *= 1 + ripple.Depth * Math.Sin(2 * Math.PI * ripple.FrequencyHz * n / SampleRateHz + ripplePhase);
    }

    /// <summary>Ground wave and up to six harmonics at random phases, scaled so that the amplitudes' root sum of squares is what was asked.</summary>
    private void AddHum(double[] values, double frequencyHz, double amplitude, Random random)
    {
        var waves = new (double Amplitude, double Phase)[1 + random.Next(7)];
        for (var i = 0; i < waves.Length; i++)
            waves[i] = (i == 0 ? 1 : random.NextDouble() * 0.6 / i, random.NextDouble() * 2 * Math.PI);
        var scale = amplitude / Math.Sqrt(waves.Sum(w => w.Amplitude * w.Amplitude));
        for (var i = 0; i < waves.Length; i++)
        {
            var step = 2 * Math.PI * (i + 1) * frequencyHz / SampleRateHz;
            var (turnSin, turnCos) = Math.SinCos(step);
            var (sin, cos) = (0.0, 0.0);
            for (var n = 0; n < values.Length; n++)
            {
                // A rotation instead of a sine per sample, begun anew before its rounding counts.
                if (n % 4096 == 0) (sin, cos) = Math.SinCos(step * n + waves[i].Phase);
                values[n] += scale * waves[i].Amplitude * sin;
                (sin, cos) = (sin * turnCos + cos * turnSin, cos * turnCos - sin * turnSin);
            }
        }
    }
}
