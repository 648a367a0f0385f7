namespace RepairShop.Testing.Recordings;

/// <summary>One exposure of a test's signal: when it begins, how long it takes to open, rests, and takes to close, in seconds.</summary>
public sealed record LightPulse(double At, double Opening, double Resting, double Closing)
{
    /// <summary>Time between the halves of straight edges, and the light let through as time fully open: the same for a trapezoid.</summary>
    public double Width => Resting + (Opening + Closing) / 2;

    internal double Light(double time) =>
        Math.Clamp(Math.Min((time - At) / Opening, (At + Opening + Resting + Closing - time) / Closing), 0, 1);
}

/// <summary>A light sensor's signal whose truth is known: straight edges, noise from a fixed seed, DC-coupled.</summary>
public static class LightPulses
{
    public const double Noise = 0.004;

    /// <summary>Exposures of these widths, each with edges of a millisecond or less, half a second of quiet around each.</summary>
    public static IReadOnlyList<LightPulse> Of(params double[] widths)
    {
        var pulses = new List<LightPulse>();
        var at = 0.6;
        foreach (var width in widths)
        {
            var edge = Math.Min(0.001, width / 4);
            pulses.Add(new LightPulse(at, edge, width - edge, edge));
            at += width + 0.6;
        }

        return pulses;
    }

    public static float[] Signal(int rate, IReadOnlyList<LightPulse> pulses, double level = 0.6, int seed = 1, double tail = 0.6)
    {
        var chance = new Random(seed);
        var last = pulses.Count == 0 ? 1 : pulses.Max(pulse => pulse.At + pulse.Opening + pulse.Resting + pulse.Closing);
        var samples = new float[(int)((last + tail) * rate)];
        for (var i = 0; i < samples.Length; i++)
        {
            var time = (double)i / rate;
            var light = pulses.Sum(pulse => pulse.Light(time));
            samples[i] = (float)(level * light + Noise * level * Bell(chance));
        }

        return samples;
    }

    private static double Bell(Random chance) =>
        Math.Sqrt(-2 * Math.Log(1 - chance.NextDouble())) * Math.Cos(2 * Math.PI * chance.NextDouble());
}
