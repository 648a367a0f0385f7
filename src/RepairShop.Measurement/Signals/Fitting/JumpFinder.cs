namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>
/// Finds where the straight signal jumps from one sample to the next although no blade can: a block of samples is missing. The droop of an AC
/// input goes on through the missing time, so undoing it leaves a step; on a DC input a block missing from a steady level leaves no trace.
/// </summary>
internal static class JumpFinder
{
    private const double SideSeconds = 0.002;
    private const double LeastShare = 0.03;
    private const double Sigmas = 7;

    /// <summary>Of the whole step, this much must happen within four samples either way; blades take ten times as long.</summary>
    private const double SharpShare = 0.75;

    private const int Near = 4;

    /// <summary>The place of the greatest jump within a stretch of even light, in samples of the signal; null where there is none.</summary>
    public static int? Find(double[] values, double from, double to, double level, double noise, double sampleRateHz)
    {
        var side = Math.Max(2 * Near, (int)(SideSeconds * sampleRateHz));
        var (start, end) = ((int)Math.Ceiling(Math.Max(from, 0)) + side, (int)Math.Min(to, values.Length) - side);
        if (end <= start) return null;
        double before = 0, after = 0;
        for (var i = 0; i < side; i++) (before, after) = (before + values[start - side + i], after + values[start + i]);
        var (best, height, usual) = (-1, 0.0, 0.0);
        for (var n = start; n < end; n++)
        {
            var step = (after - before) / side;
            if (Math.Abs(step) > Math.Abs(height)) (best, height) = (n, step);
            usual += step * step;
            before += values[n] - values[n - side];
            after += values[n + side] - values[n];
        }

        if (best < 0) return null;
        // What slow noise does all the time is no jump; a jump itself counts for a side's length on either hand.
        var elsewhere = Math.Max(1, end - start - 2 * side);
        var expected = Math.Max(noise * Math.Sqrt(2.0 / side), Math.Sqrt(Math.Max(0, usual - 2.0 / 3 * side * height * height) / elsewhere));
        if (Math.Abs(height) < Math.Max(LeastShare * level, Sigmas * expected)) return null;
        var near = Smooth.MeanOf(values, best, best + Near) - Smooth.MeanOf(values, best - Near, best);
        return near / height > SharpShare - 2 * noise * Math.Sqrt(2.0 / Near) / Math.Abs(height) && near / height > 0.5 ? best : null;
    }
}
