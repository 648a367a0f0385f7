namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>What the fits of whole exposures and of single edges have in common.</summary>
internal static class FitTools
{
    /// <summary>The same as the search's blocks: short beside any blade.</summary>
    public const double BlockSeconds = 0.00025;

    public static PulseModel Guess(double closed, double level, double t0, double t1, double t2, double t3) => new()
    {
        Parameters = [closed, level, t0, t1, t2, t3, .. EdgeShape.Usual, .. EdgeShape.Usual],
    };

    public static PulseModel Shifted(PulseModel model, double by)
    {
        var moved = (double[])model.Parameters.Clone();
        for (var i = PulseModel.T0; i <= PulseModel.T3; i++) moved[i] += by;
        return new() { Parameters = moved };
    }

    /// <summary>Samples to leave out: bounces with their feet, which are lower than what finds them.</summary>
    public static bool[] Skip(IReadOnlyList<BounceFinder.Span> bounces, int start, int end)
    {
        var skip = new bool[end - start];
        foreach (var bounce in bounces)
            for (var i = Math.Max(start, bounce.From); i < Math.Min(end, bounce.To); i++)
                skip[i - start] = true;
        return skip;
    }

    /// <summary>One standard uncertainty of a figure of the model, from the covariance of its parameters (JCGM 100:2008, 5.2.2).</summary>
    public static double Uncertainty(PulseFit.Result fit, Func<PulseModel, double> figure)
    {
        const double step = 1e-4;
        var slopes = new double[PulseModel.Size];
        var middle = figure(fit.Model);
        for (var i = 0; i < PulseModel.Size; i++)
        {
            var moved = (double[])fit.Model.Parameters.Clone();
            moved[i] += step;
            slopes[i] = (figure(new() { Parameters = moved }) - middle) / step;
        }

        double variance = 0;
        for (var i = 0; i < PulseModel.Size; i++)
            for (var j = 0; j < PulseModel.Size; j++)
                variance += slopes[i] * fit.Covariance[i, j] * slopes[j];
        return Math.Sqrt(Math.Max(0, variance));
    }

    /// <summary>Root mean square of block means of what a model leaves, bounces aside.</summary>
    public static double BlockRms(
        double[] signal, PulseModel model, double from, double to, IReadOnlyList<BounceFinder.Span> bounces, double sampleRateHz)
    {
        var length = Math.Max(1, (int)(BlockSeconds * sampleRateHz));
        var (start, end) = (Math.Max(0, (int)from), Math.Min(signal.Length, (int)to));
        double squares = 0;
        var count = 0;
        for (var i = start; i + length <= end; i += length)
        {
            if (bounces.Any(b => i < b.To && i + length > b.From)) continue;
            double sum = 0;
            for (var j = i; j < i + length; j++) sum += signal[j] - model.Value(j);
            squares += sum * sum / length / length;
            count++;
        }

        return Math.Sqrt(squares / Math.Max(1, count));
    }
}
