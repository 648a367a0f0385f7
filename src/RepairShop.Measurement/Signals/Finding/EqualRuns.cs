namespace RepairShop.Measurement.Signals.Finding;

/// <summary>Stretches of one and the same value. In a noisy signal they are made by a ceiling or by an input that dropped out.</summary>
internal sealed class EqualRuns
{
    /// <summary>Runs shorter than this are not looked at in any signal.</summary>
    private const int Least = 8;

    /// <summary>Neighbours are looked at once in so many samples.</summary>
    private const int Stride = 37;

    /// <summary>Runs longer than this say nothing about chance.</summary>
    private const int Long = 64;

    /// <summary>A recording that stands still for more of its time than this has no noise to judge runs by.</summary>
    private const double StillShare = 0.3;

    /// <summary>A signal that spans fewer rounding steps than this is coarse, and still where half its neighbours are equal.</summary>
    private const double CoarseSteps = 1000;

    private const double CoarseStillShare = 0.5;

    private EqualRuns(List<Run> runs, bool isStill, int leastSuspicious) => (Runs, IsStill, LeastSuspicious) = (runs, isStill, leastSuspicious);

    /// <summary>From a sample on, so many samples of one value.</summary>
    public readonly record struct Run(int From, int Length, float Value)
    {
        public int To => From + Length;
    }

    /// <summary>All runs that don't happen by chance, in order.</summary>
    public IReadOnlyList<Run> Runs { get; }

    /// <summary>Whether the recording is so free of noise that runs are its nature.</summary>
    public bool IsStill { get; }

    /// <summary>Runs at least this long don't happen by chance: 8 with fine steps, more where the noise is hardly a step high.</summary>
    public int LeastSuspicious { get; }

    public static EqualRuns Of(ReadOnlySpan<float> samples)
    {
        var suspicious = Suspicious(samples, out var isStill);
        var runs = new List<Run>();
        if (isStill) return new(runs, true, suspicious);
        for (var i = 0; i + suspicious - 1 < samples.Length;)
        {
            if (samples[i] != samples[i + suspicious - 1])
            {
                i++;
                continue;
            }

            // From the far end, the first sample that differs tells how far to go on.
            var differs = samples.Slice(i, suspicious).LastIndexOfAnyExcept(samples[i]);
            if (differs >= 0)
            {
                i += differs;
                continue;
            }

            var end = i + suspicious;
            while (end < samples.Length && samples[end] == samples[i]) end++;
            runs.Add(new(i, end - i, samples[i]));
            i = end;
        }

        return new(runs, false, suspicious);
    }

    /// <summary>
    /// Where neighbours are equal with probability p, the longest run of n samples is about ln n / ln(1/p); three times that is beyond chance.
    /// In a finely rounded signal long runs have another cause and don't count for p; in a coarse one they come by themselves.
    /// </summary>
    private static int Suspicious(ReadOnlySpan<float> samples, out bool isStill)
    {
        int equal = 0, looked = 0, still = 0, atHigh = 0, atLow = 0;
        float least = float.PositiveInfinity, high = float.NegativeInfinity, low = float.PositiveInfinity;
        for (var i = 0; i + Long < samples.Length; i += Stride)
        {
            var (value, step) = (samples[i], Math.Abs(samples[i] - samples[i + 1]));
            if (value > high) (high, atHigh) = (value, 0);
            if (value < low) (low, atLow) = (value, 0);
            looked++;
            if (step > 0) least = Math.Min(least, step);
            else if (samples.Slice(i, Long).IndexOfAnyExcept(value) >= 0) equal++;
            else
            {
                still++;
                if (value == high) atHigh++;
                if (value == low) atLow++;
            }
        }

        // A ceiling makes one level still, and only that.
        var ceiling = Math.Max(atHigh, atLow);
        var isCoarse = least > (high - low) / CoarseSteps;
        isStill = isCoarse ? equal + still - ceiling > CoarseStillShare * (looked - ceiling) : still - ceiling > StillShare * (looked - ceiling);
        var share = Math.Min(0.99, isCoarse ? (double)(equal + still) / looked : (double)equal / Math.Max(1, looked - still));
        return share <= 0 ? Least : Math.Max(Least, (int)(3 * Math.Log(samples.Length) / -Math.Log(share)));
    }
}
