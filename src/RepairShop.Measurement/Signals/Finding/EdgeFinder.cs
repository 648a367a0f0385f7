namespace RepairShop.Measurement.Signals.Finding;

/// <summary>
/// Finds changes of level: the mean of the millisecond after a short gap minus the mean of the one before. A droop of 10 Hz or slower, hum and
/// offset change little over so short a time, so one statistic serves AC and DC, either polarity and any length of exposure.
/// </summary>
internal sealed class EdgeFinder
{
    private const double SideSeconds = 0.001;
    private const double GapSeconds = 0.001;

    /// <summary>Edges below this share of the greatest one are not exposures of the same session.</summary>
    private const double StrongShare = 0.2;

    private const double WeakShare = 0.06;

    private readonly float[] steps;
    private readonly int gap;

    public EdgeFinder(Blocks blocks)
    {
        var side = blocks.In(SideSeconds);
        gap = blocks.In(GapSeconds);
        steps = Steps(blocks.Means, side, gap);
        var sizes = new float[steps.Length];
        for (var i = 0; i < steps.Length; i++) sizes[i] = Math.Abs(steps[i]);
        Greatest = sizes.Length == 0 ? 0 : sizes.Max();
        Usual = Quantile(sizes, 0.9);
        Noise = Quantile(sizes, 0.5) / 0.6745;
    }

    /// <summary>The greatest step, without its sign.</summary>
    public double Greatest { get; }

    /// <summary>Nine of ten steps are smaller than this.</summary>
    public double Usual { get; }

    /// <summary>Standard deviation of the steps where nothing happens, from their median.</summary>
    public double Noise { get; }

    /// <summary>Whether anything stands out of what the signal does all the time.</summary>
    public bool HasEdges => Greatest > 6 * Noise && Greatest > 2.2 * Usual;

    /// <summary>Edges high enough to belong to an exposure.</summary>
    public IReadOnlyList<Edge> Strong(double greatest) => Above(Math.Max(StrongShare * greatest, 2 * Usual));

    /// <summary>Edges that may be a bounce or the rest of one.</summary>
    public IReadOnlyList<Edge> Weak(double greatest) => Above(Math.Max(WeakShare * greatest, 1.5 * Usual));

    private List<Edge> Above(double threshold)
    {
        var edges = new List<Edge>();
        for (var i = 0; i < steps.Length; i++)
        {
            if (Math.Abs(steps[i]) <= threshold) continue;
            var (from, peak, sign) = (i, i, Math.Sign(steps[i]));
            for (; i < steps.Length && sign * steps[i] > threshold; i++)
                if (Math.Abs(steps[i]) > Math.Abs(steps[peak])) peak = i;
            edges.Add(new(peak, from, i - 1, steps[peak]));
            i--;
        }

        return edges;
    }

    /// <summary>Step at block i: the gap is centred there, so that the edge sits in its middle.</summary>
    private static float[] Steps(float[] means, int side, int gap)
    {
        var steps = new float[means.Length];
        if (means.Length < 2 * side + gap) return steps;
        var sums = new double[means.Length + 1];
        for (var i = 0; i < means.Length; i++) sums[i + 1] = sums[i] + means[i];
        var half = gap / 2;
        for (var i = side + half; i + gap - half + side <= means.Length; i++)
        {
            var after = sums[i + gap - half + side] - sums[i + gap - half];
            var before = sums[i - half] - sums[i - half - side];
            steps[i] = (float)((after - before) / side);
        }

        return steps;
    }

    /// <summary>A quantile from at most 20 000 evenly picked values, which is exact enough for a threshold.</summary>
    private static double Quantile(float[] values, double share)
    {
        if (values.Length == 0) return 0;
        var stride = Math.Max(1, values.Length / 20_000);
        var picked = new float[(values.Length + stride - 1) / stride];
        for (var i = 0; i < picked.Length; i++) picked[i] = values[i * stride];
        Array.Sort(picked);
        return picked[(int)(share * (picked.Length - 1))];
    }
}
