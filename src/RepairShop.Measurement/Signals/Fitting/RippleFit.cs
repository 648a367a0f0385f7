namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>Lamp flicker on a plateau: least squares on 100 and 120 Hz beside a level and a slope.</summary>
internal static class RippleFit
{
    /// <summary>Shorter plateaus hold too little of a period.</summary>
    private const double LeastSeconds = 0.02;

    /// <summary>Flicker is slow beside this: its means over so long lose less than a percent and cost a fiftieth.</summary>
    private const double CellSeconds = 0.0005;

    private const double LeastDepth = 0.01;
    private const double Sigmas = 6;

    public static (double FrequencyHz, double Depth)? Find(double[] values, double from, double to, double noise, double sampleRateHz)
    {
        var (start, end) = (Math.Max(0, (int)Math.Ceiling(from)), Math.Min(values.Length, (int)to));
        // A second tells as much as an hour.
        end = Math.Min(end, start + (int)sampleRateHz);
        if (end - start < LeastSeconds * sampleRateHz) return null;
        var length = Math.Max(1, (int)(CellSeconds * sampleRateHz));
        var cells = new double[(end - start) / length];
        for (var i = 0; i < cells.Length; i++) cells[i] = Smooth.MeanOf(values, start + i * length, start + (i + 1) * length);
        var (at100, at120) = (Depth(cells, 100, sampleRateHz / length), Depth(cells, 120, sampleRateHz / length));
        var best = at100 >= at120 ? (100.0, at100) : (120.0, at120);
        return best.Item2 > LeastDepth + Sigmas * noise * Math.Sqrt(2.0 / (end - start)) / Math.Abs(cells.Average()) ? best : null;
    }

    private static double Depth(double[] cells, double frequencyHz, double rateHz)
    {
        var normal = new double[4, 4];
        var right = new double[4];
        Span<double> row = stackalloc double[4];
        for (var n = 0; n < cells.Length; n++)
        {
            var time = (n - cells.Length / 2.0) / rateHz;
            var (sin, cos) = Math.SinCos(2 * Math.PI * frequencyHz * time);
            (row[0], row[1], row[2], row[3]) = (1, time, cos, sin);
            for (var i = 0; i < 4; i++)
            {
                right[i] += row[i] * cells[n];
                for (var j = 0; j < 4; j++) normal[i, j] += row[i] * row[j];
            }
        }

        var solved = Dense.Solve(normal, right);
        return Math.Sqrt(solved[2] * solved[2] + solved[3] * solved[3]) / Math.Max(Math.Abs(solved[0]), 1e-30);
    }
}
