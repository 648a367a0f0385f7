namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>
/// Sets a crossing right where the samples around it say, beyond their noise, that the blades move otherwise than the model's smooth shapes: a
/// kink, a hesitation.
/// </summary>
internal static class LocalCrossing
{
    /// <summary>The share of the edge's duration that is looked at on either side.</summary>
    private const double Share = 0.11;

    /// <summary>Deviations of this many standard deviations are believed by half.</summary>
    private const double HalfBelieved = 1.4;

    public static double Of(double[] values, PulseModel model, double crossing, double noise)
    {
        var opening = crossing < (model[PulseModel.T1] + model[PulseModel.T2]) / 2;
        var length = opening ? model[PulseModel.T1] - model[PulseModel.T0] : model[PulseModel.T3] - model[PulseModel.T2];
        var half = Math.Max(2, Share * length);
        var (from, to) = ((int)Math.Ceiling(crossing - half), (int)Math.Floor(crossing + half));
        if (from < 0 || to >= values.Length || to - from < 2) return crossing;
        double n = 0, sum = 0, sx = 0, sxx = 0, sxy = 0;
        for (var i = from; i <= to; i++)
        {
            var (x, left) = (i - crossing, values[i] - model.Value(i));
            n++;
            (sum, sx, sxx, sxy) = (sum + left, sx + x, sxx + x * x, sxy + x * left);
        }

        // Only a deviation of one sign counts at the crossing; a tilt about it changes the slope alone.
        var deviation = sum / n;
        var tilt = sxx > 0 ? (sxy - sx * deviation) / sxx : 0;
        const double step = 0.25;
        var slope = (model.Value(crossing + step) - model.Value(crossing - step)) / (2 * step);
        if (Math.Sign(slope + tilt) == Math.Sign(slope) && Math.Abs(slope + tilt) > 0.3 * Math.Abs(slope)) slope += tilt;
        if (slope == 0) return crossing;
        var sigmas = Math.Abs(deviation) / (noise / Math.Sqrt(n));
        var belief = sigmas * sigmas / (sigmas * sigmas + HalfBelieved * HalfBelieved);
        return crossing - Math.Clamp(belief * deviation / slope, -half, half);
    }
}
