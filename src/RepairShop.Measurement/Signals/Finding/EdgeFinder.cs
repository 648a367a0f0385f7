namespace RepairShop.Measurement.Signals.Finding;

/// <summary>
/// Finds changes of level: the mean of the millisecond after a short gap minus the mean of the one before. A droop of 10 Hz or slower, hum and
/// offset change little over so short a time, so one statistic serves AC and DC, either polarity and any length of exposure.
/// </summary>
internal sealed class EdgeFinder
{
    private const double SideSeconds = 0.001;
    private const double GapSeconds = 0.001;

    private const double WeakShare = 0.06;

    /// <summary>An edge goes on until it is down to this share of the threshold, or noise would break a slow one to pieces.</summary>
    private const double KeepShare = 0.5;

    /// <summary>A fast exposure that never rests open may reach little of what a slow one does; its edges stand alone in the quiet.</summary>
    private const double LesserShare = 0.08;

    private const double LesserSigmas = 7;

    /// <summary>What lies this close behind an edge may be its droop or a bounce.</summary>
    private const double BehindSeconds = 0.06;

    /// <summary>Edges take about this much of a recording, which is much of a short one.</summary>
    private const double EdgesSeconds = 0.012;

    private readonly float[] steps;
    private readonly int gap;
    private readonly int behind;

    public EdgeFinder(Blocks blocks)
    {
        var side = blocks.In(SideSeconds);
        gap = blocks.In(GapSeconds);
        behind = blocks.In(BehindSeconds);
        steps = Steps(blocks.Means, side, gap);
        var greatest = 0f;
        foreach (var step in steps)
            if (Math.Abs(step) > greatest) greatest = Math.Abs(step);
        Greatest = greatest;
        var busy = EdgesSeconds * blocks.RateHz / Math.Max(1, steps.Length);
        var sizes = Picked(steps);
        Usual = Quantile(sizes, 1 - Math.Clamp(busy, 0.1, 0.4));
        Noise = Quantile(sizes, 0.5) / 0.6745;
    }

    /// <summary>The greatest step, without its sign.</summary>
    public double Greatest { get; }

    /// <summary>Nine of ten steps are smaller than this; fewer in a recording that is mostly exposure.</summary>
    public double Usual { get; }

    /// <summary>Standard deviation of the steps where nothing happens, from their median.</summary>
    public double Noise { get; }

    /// <summary>Whether anything stands out of what the signal does all the time.</summary>
    public bool HasEdges => Greatest > 6 * Noise && Greatest > 2.2 * Usual;

    /// <summary>Edges high enough to belong to an exposure, and lesser ones that stand alone.</summary>
    /// <param name="share">Of the greatest edge: what is less is the droop of an input, a bounce, or nothing.</param>
    public IReadOnlyList<Edge> Strong(double share)
    {
        var (threshold, lower) = (Math.Max(share * Greatest, 2 * Usual), Math.Max(Math.Max(LesserShare * Greatest, LesserSigmas * Noise), 2 * Usual));
        var strong = Above(threshold);
        if (lower >= threshold) return strong;
        var lesser = Above(lower);
        // Within an exposure, and behind one, a lesser edge is no exposure of its own.
        var opening = CandidateFinder.Polarity(strong);
        var all = new List<Edge>();
        var next = 0;
        Edge? before = null;
        foreach (var edge in lesser)
        {
            var first = next;
            while (next < strong.Count && strong[next].From >= edge.From && strong[next].To <= edge.To) all.Add(strong[next++]);
            if (next > first)
            {
                before = strong[next - 1];
                continue;
            }

            var isOpen = before is { } last && Math.Sign(last.Height) == opening;
            var isBehind = before is { } passed && edge.From - passed.To < behind;
            if (!isOpen && !isBehind) all.Add(edge);
        }

        return Paired(all, strong, opening);
    }

    /// <summary>Leaves out lesser edges without a partner of the other direction right beside them.</summary>
    private List<Edge> Paired(List<Edge> all, List<Edge> strong, int opening)
    {
        var kept = new List<Edge>();
        for (var i = 0; i < all.Count; i++)
        {
            var edge = all[i];
            if (strong.Contains(edge)) kept.Add(edge);
            else if (Math.Sign(edge.Height) == opening && i + 1 < all.Count && Math.Sign(all[i + 1].Height) != opening
                && !strong.Contains(all[i + 1]) && all[i + 1].From - edge.To < behind)
                kept.AddRange([edge, all[++i]]);
        }

        return kept;
    }

    /// <summary>Edges that may be a bounce or the rest of one.</summary>
    public IReadOnlyList<Edge> Weak() => Above(Math.Max(WeakShare * Greatest, 1.5 * Usual));

    private List<Edge> Above(double threshold)
    {
        var edges = new List<Edge>();
        for (var i = 0; i < steps.Length; i++)
        {
            if (Math.Abs(steps[i]) <= threshold) continue;
            var (from, peak, sign) = (i, i, Math.Sign(steps[i]));
            for (; i < steps.Length && sign * steps[i] > KeepShare * threshold; i++)
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

    /// <summary>The sizes of some 20 000 evenly picked steps, in order: exact enough for a threshold.</summary>
    private static float[] Picked(float[] steps)
    {
        var stride = Math.Max(1, steps.Length / 20_000);
        var picked = new float[(steps.Length + stride - 1) / stride];
        for (var i = 0; i < picked.Length; i++) picked[i] = Math.Abs(steps[i * stride]);
        Array.Sort(picked);
        return picked;
    }

    private static double Quantile(float[] sorted, double share) => sorted.Length == 0 ? 0 : sorted[(int)(share * (sorted.Length - 1))];
}
