namespace RepairShop.Measurement.Signals.Finding;

/// <summary>
/// Whether an exposure was overdriven: flat tops. At full scale a few equal samples suffice; below it, an amplifier's ceiling shows by runs
/// of one extreme value in a signal that is noisy everywhere else.
/// </summary>
internal static class ClippingScan
{
    /// <summary>Eight bits end at 127/128 of full scale.</summary>
    private const double NearFullScale = 0.99;

    /// <summary>So many samples in a row at the ceiling are no accident even where the noise alone reaches it now and then.</summary>
    private const int SurelyClipped = 8;

    /// <summary>More of the open time at the ceiling than this spoils the level (at a quarter, it is short by a third of the noise).</summary>
    private const double SpoiltShare = 0.25;

    /// <summary>What was found.</summary>
    /// <param name="AtSample">First sample at the ceiling.</param>
    /// <param name="Samples">How many there are.</param>
    /// <param name="Level">The ceiling.</param>
    /// <param name="IsSpoilt">Whether the exposure's level is lost.</param>
    public readonly record struct Finding(int AtSample, int Samples, double Level, bool IsSpoilt);

    /// <summary>Looks at the samples from one place to another, which hold one exposure.</summary>
    public static Finding? Of(ReadOnlySpan<float> samples, int from, int to, double? fullScale, EqualRuns runs)
    {
        (from, to) = (Math.Max(0, from), Math.Min(samples.Length, to));
        if (to - from < SurelyClipped) return null;
        var part = samples[from..to];
        float high = part[0], low = part[0];
        foreach (var sample in part) (high, low) = (Math.Max(high, sample), Math.Min(low, sample));
        // Behind a capacitor an exposure may hit both ends: what happened first is told.
        return (At(part, from, high, low, fullScale, runs), At(part, from, low, high, fullScale, runs)) switch
        {
            ({ } above, { } below) => (above.AtSample < below.AtSample ? above : below) with { IsSpoilt = above.IsSpoilt || below.IsSpoilt },
            (null, { } below) => below,
            var (above, _) => above,
        };
    }

    private static Finding? At(ReadOnlySpan<float> part, int from, float ceiling, float other, double? fullScale, EqualRuns runs)
    {
        var atFullScale = fullScale is { } scale && Math.Abs(ceiling) >= NearFullScale * scale;
        if (!atFullScale && runs.IsStill) return null;
        int count = 0, run = 0, longest = 0, first = -1, near = 0;
        for (var i = 0; i < part.Length; i++)
        {
            if (Math.Abs(part[i] - ceiling) < 0.15 * Math.Abs(other - ceiling)) near++;
            if (part[i] != ceiling)
            {
                run = 0;
                continue;
            }

            if (first < 0) first = i;
            count++;
            longest = Math.Max(longest, ++run);
        }

        if (longest < 3 || (!atFullScale && longest < Math.Max(SurelyClipped, runs.LeastSuspicious))) return null;
        return new(from + first, count, ceiling, longest >= SurelyClipped || count > SpoiltShare * near);
    }
}
