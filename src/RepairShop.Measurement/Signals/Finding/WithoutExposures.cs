namespace RepairShop.Measurement.Signals.Finding;

/// <summary>What a channel without any exposure holds: nothing, noise, hum, or something that sounds.</summary>
internal static class WithoutExposures
{
    /// <summary>Below a thousandth of full scale an input is as good as silent.</summary>
    private const double SilentShare = 0.001;

    /// <summary>One mains wave and its harmonics must carry this share of the power to be called hum.</summary>
    private const double HumShare = 0.5;

    /// <summary>Means of neighbouring blocks of noise have nothing to do with each other; what sounds hangs together beyond this.</summary>
    private const double SoundingCorrelation = 0.3;

    /// <summary>The reason for a channel in which nothing stands out.</summary>
    public static Outcome Reason(Blocks blocks, double? fullScale)
    {
        var (mean, squares, neighbours) = Power(blocks);
        if (fullScale is { } scale && Math.Sqrt(squares / blocks.Count) < SilentShare * scale) return Outcome.Silent;
        if (IsHum(blocks, mean, squares)) return Outcome.HumOnly;
        return neighbours > SoundingCorrelation * squares ? Outcome.NotAShutter : Outcome.NoExposure;
    }

    /// <summary>The reason for a channel in which something stands out that is no exposure.</summary>
    public static Outcome Sounding(Blocks blocks)
    {
        var (mean, squares, _) = Power(blocks);
        return IsHum(blocks, mean, squares) ? Outcome.HumOnly : Outcome.NotAShutter;
    }

    private static (double Mean, double Squares, double Neighbours) Power(Blocks blocks)
    {
        double mean = 0, squares = 0, neighbours = 0;
        foreach (var value in blocks.Means) mean += value;
        mean /= Math.Max(1, blocks.Count);
        for (var i = 0; i < blocks.Count; i++)
        {
            var value = blocks.Means[i] - mean;
            squares += value * value;
            if (i > 0) neighbours += value * (blocks.Means[i - 1] - mean);
        }

        return (mean, squares, neighbours);
    }

    private static bool IsHum(Blocks blocks, double mean, double squares) =>
        Math.Max(Share(blocks, 50, mean, squares), Share(blocks, 60, mean, squares)) > HumShare;

    /// <summary>The share of the power in one mains frequency and its first harmonics, over stretches short enough for any drift.</summary>
    private static double Share(Blocks blocks, double frequencyHz, double mean, double squares)
    {
        const int harmonics = 8;
        const int stretches = 40;
        if (squares <= 0) return 0;
        var length = Math.Min(blocks.Count, blocks.In(0.2));
        var stride = Math.Max(length, blocks.Count / stretches);
        double power = 0, whole = 0;
        var (humming, all) = (0, 0);
        for (var start = 0; start + length <= blocks.Count; start += stride)
        {
            double here = 0, wave = 0;
            for (var i = 0; i < length; i++) here += (blocks.Means[start + i] - mean) * (blocks.Means[start + i] - mean);
            for (var harmonic = 1; harmonic <= harmonics; harmonic++)
            {
                double cos = 0, sin = 0;
                for (var i = 0; i < length; i++)
                {
                    var (s, c) = Math.SinCos(2 * Math.PI * harmonic * frequencyHz * i / blocks.RateHz);
                    cos += c * (blocks.Means[start + i] - mean);
                    sin += s * (blocks.Means[start + i] - mean);
                }

                wave += 2 * (cos * cos + sin * sin) / length;
            }

            (power, whole, all) = (power + wave, whole + here, all + 1);
            if (wave > HumShare * here) humming++;
        }

        // Mains never pause: what rings like them now and then is something else.
        return whole > 0 && 10 * humming > 8 * all ? power / whole : 0;
    }
}
