namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>
/// How firmly the mean of a stretch of light stands above the quiet on both its sides, told by the quiet parts themselves: the same difference, taken
/// wherever nothing happens. Noise that hangs together from one sample to the next (pink noise, what is left of hum) leaves a level far less sure than
/// the spread of single samples says.
/// </summary>
internal static class QuietLevel
{
    private const double MarginSeconds = 0.005;

    /// <summary>Fewer stretches that do not overlap tell nothing.</summary>
    private const double LeastStretches = 6;

    /// <summary>Standard deviation of the difference for a stretch of so many samples; 0 where there is too little quiet to tell.</summary>
    public static double Uncertainty(QuietWindow window, DroopFit droop, int index, double samples)
    {
        var (candidate, blocks) = (window.Candidate, window.Blocks);
        var (length, margin) = (Math.Max(1, (int)Math.Round(samples / blocks.Length)), blocks.In(MarginSeconds));
        double squares = 0, count = 0, stretches = 0;
        foreach (var (segment, from, to) in new[] { (0, candidate.QuietFrom, candidate.From), (2, candidate.To, candidate.QuietTo) })
        {
            if (to - from < length + 2 * margin) continue;
            stretches += (double)(to - from) / (length + margin);
            var sums = Sums(window, droop, index, segment, from, to);
            for (var i = margin; i + length + margin <= to - from; i++)
            {
                var inside = (sums[i + length] - sums[i]) / length;
                var outside = (sums[i] - sums[i - margin] + sums[i + length + margin] - sums[i + length]) / (2 * margin);
                squares += (inside - outside) * (inside - outside);
                count++;
            }
        }

        return stretches < LeastStretches ? 0 : Math.Sqrt(squares / count);
    }

    /// <summary>Sums from the first on of what the droop's model leaves of the blocks.</summary>
    private static double[] Sums(QuietWindow window, DroopFit droop, int index, int segment, int from, int to)
    {
        var sums = new double[to - from + 1];
        var (decay, ratio) = (droop.Model(index, segment, from + 0.5) - droop.Offset, Math.Exp(-droop.DecayPerSecond / window.Blocks.RateHz));
        for (var i = 0; i < to - from; i++, decay *= ratio)
            sums[i + 1] = sums[i] + window.Values[from + i - window.Candidate.QuietFrom] - droop.Offset - decay;
        return sums;
    }
}
