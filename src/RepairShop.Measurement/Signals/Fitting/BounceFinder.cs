namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>Looks for light after the closing: the blades have bounced open again.</summary>
internal static class BounceFinder
{
    private const double SmoothSeconds = 0.00015;

    /// <summary>Less than this share of the exposure's level is no bounce worth a word.</summary>
    private const double LeastShare = 0.05;

    /// <summary>From, to (excluded), in samples of the straight signal.</summary>
    public readonly record struct Span(int From, int To, double Threshold);

    /// <summary>Stretches of light after a place where the shutter is closed.</summary>
    /// <param name="values">Light, 0 closed.</param>
    /// <param name="closed">A sample at or after complete closing.</param>
    /// <param name="level">The exposure's own level.</param>
    /// <param name="noise">Standard deviation of a sample's noise.</param>
    /// <param name="sampleRateHz">Samples a second.</param>
    public static List<Span> Find(double[] values, int closed, double level, double noise, double sampleRateHz)
    {
        var width = Math.Max(1, (int)(SmoothSeconds * sampleRateHz)) | 1;
        var smooth = Smooth.Mean(values, width);
        var threshold = Math.Max(LeastShare * level, 5 * noise / Math.Sqrt(width));
        var spans = new List<Span>();
        var i = Math.Clamp(closed, 0, values.Length);
        // The foot of a slow closing is not a bounce: wait until it is really down, or rises again before it is.
        var lowest = i;
        for (; i < values.Length && smooth[i] > threshold / 2 && smooth[i] < smooth[lowest] + threshold; i++)
            if (smooth[i] < smooth[lowest]) lowest = i;
        closed = Math.Min(i, Math.Max(closed, lowest));
        for (; i < values.Length; i++)
        {
            if (smooth[i] < threshold) continue;
            var (from, to) = (i, i);
            while (from > 0 && smooth[from - 1] > threshold / 4 && from > closed) from--;
            while (to < values.Length && smooth[to] > threshold / 4) to++;
            // The feet are lower than the noise lets see; a little more of nothing on either side costs nothing.
            (from, to) = (Math.Max(Math.Min(from, closed), from - width), Math.Min(values.Length, to + width));
            spans.Add(new(from, to, threshold));
            i = to;
        }

        return spans;
    }
}
