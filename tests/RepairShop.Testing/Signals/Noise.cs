namespace RepairShop.Testing.Signals;

/// <summary>How noise spreads over frequency.</summary>
public enum NoiseColour
{
    /// <summary>The same power at every frequency.</summary>
    White,

    /// <summary>Power falling as 1/f down to about 5 Hz.</summary>
    Pink,

    /// <summary>Power falling as 1/f² above 300 Hz, even below.</summary>
    Red,

    /// <summary>Power rising as f²: differences of white noise.</summary>
    Blue,
}

/// <summary>Gaussian noise of unit standard deviation, sample by sample.</summary>
public sealed class Noise(Random random, NoiseColour colour, double sampleRateHz)
{
    /// <summary>First-order low-passes two octaves apart, of equal power, add up to 1/f within half a decibel.</summary>
    private readonly (double Keep, double Feed)[] stages = colour switch
    {
        NoiseColour.Pink => [.. Enumerable.Range(0, 7).Select(i => Stage(5 * Math.Pow(4, i), sampleRateHz, 7))],
        NoiseColour.Red => [Stage(300, sampleRateHz, 1)],
        _ => [],
    };

    private readonly double[] states = new double[7];
    private double spare = double.NaN;
    private double before;

    public double Next()
    {
        if (colour == NoiseColour.White) return Gauss();
        if (colour == NoiseColour.Blue)
        {
            var now = Gauss();
            var difference = (now - before) / Math.Sqrt(2);
            before = now;
            return difference;
        }

        double sum = 0;
        for (var i = 0; i < stages.Length; i++) sum += states[i] = stages[i].Keep * states[i] + stages[i].Feed * Gauss();
        return sum;
    }

    /// <summary>Box and Muller: two independent values from two uniform ones.</summary>
    private double Gauss()
    {
        if (!double.IsNaN(spare))
        {
            var kept = spare;
            spare = double.NaN;
            return kept;
        }

        var radius = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()));
        var (sin, cos) = Math.SinCos(2 * Math.PI * random.NextDouble());
        spare = radius * sin;
        return radius * cos;
    }

    private static (double Keep, double Feed) Stage(double cornerHz, double sampleRateHz, int count)
    {
        var keep = Math.Exp(-2 * Math.PI * cornerHz / sampleRateHz);
        return (keep, Math.Sqrt((1 - keep * keep) / count));
    }
}
