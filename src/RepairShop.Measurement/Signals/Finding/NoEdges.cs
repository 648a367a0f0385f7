namespace RepairShop.Measurement.Signals.Finding;

/// <summary>What a channel without any edge holds: nothing, noise, or hum.</summary>
internal static class NoEdges
{
    /// <summary>Below a thousandth of full scale an input is as good as silent.</summary>
    private const double SilentShare = 0.001;

    /// <summary>One mains wave and its harmonics must carry this share of the power to be called hum.</summary>
    private const double HumShare = 0.5;

    public static Outcome Reason(Blocks blocks, double? fullScale)
    {
        var means = blocks.Means;
        double sum = 0, squares = 0;
        foreach (var mean in means) sum += mean;
        sum /= means.Length;
        foreach (var mean in means) squares += (mean - sum) * (mean - sum);
        if (fullScale is { } scale && Math.Sqrt(squares / means.Length) < SilentShare * scale) return Outcome.Silent;
        var hum = Math.Max(Share(blocks, 50, sum, squares), Share(blocks, 60, sum, squares));
        return hum > HumShare ? Outcome.HumOnly : Outcome.NoExposure;
    }

    /// <summary>The share of the power in one mains frequency and its first seven harmonics, over stretches short enough for any drift.</summary>
    private static double Share(Blocks blocks, double frequencyHz, double mean, double squares)
    {
        if (squares <= 0) return 0;
        var length = Math.Min(blocks.Count, blocks.In(0.2));
        double power = 0;
        for (var start = 0; start + length <= blocks.Count; start += length)
            for (var harmonic = 1; harmonic <= 8; harmonic++)
            {
                double cos = 0, sin = 0;
                for (var i = 0; i < length; i++)
                {
                    var (s, c) = Math.SinCos(2 * Math.PI * harmonic * frequencyHz * i / blocks.RateHz);
                    cos += c * (blocks.Means[start + i] - mean);
                    sin += s * (blocks.Means[start + i] - mean);
                }

                power += 2 * (cos * cos + sin * sin) / length;
            }

        return power / squares;
    }
}
