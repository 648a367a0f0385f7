namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>
/// One opening and closing: closed level, height, four times and two shapes. Times are in samples; the order of <see cref="Parameters"/> is
/// closed, height, t0 (leaves closed), t1 (open), t2 (begins to close), t3 (closed), lean and roundness of the opening, of the closing.
/// </summary>
internal sealed class PulseModel
{
    public const int Size = 10;
    public const int Closed = 0, Height = 1, T0 = 2, T1 = 3, T2 = 4, T3 = 5, OpeningLean = 6, OpeningRoundness = 7, ClosingLean = 8, ClosingRoundness = 9;

    /// <summary>No edge is steeper than this many samples.</summary>
    public const double LeastEdge = 0.7;

    public double[] Parameters { get; init; } = new double[Size];

    public EdgeShape Opening => new(Parameters[OpeningLean], Parameters[OpeningRoundness]);

    public EdgeShape Closing => new(Parameters[ClosingLean], Parameters[ClosingRoundness]);

    public double this[int index] => Parameters[index];

    /// <summary>Value at a time and its slope with each parameter.</summary>
    public double At(double t, Span<double> slopes)
    {
        var p = Parameters;
        var opening = t < (p[T1] + p[T2]) / 2;
        var (start, length, shape) = opening
            ? (p[T0], p[T1] - p[T0], Opening)
            : (p[T3], p[T2] - p[T3], Closing);
        var s = (t - start) / length;
        slopes.Clear();
        slopes[Closed] = 1;
        var g = shape.At(s);
        slopes[Height] = g;
        if (s is > 0 and < 1)
        {
            var steep = p[Height] * shape.SlopeAt(s) / length;
            var (first, second, lean, round) = opening ? (T0, T1, OpeningLean, OpeningRoundness) : (T3, T2, ClosingLean, ClosingRoundness);
            slopes[first] = steep * (s - 1);
            slopes[second] = -steep * s;
            slopes[lean] = p[Height] * s * (1 - s);
            slopes[round] = slopes[lean] * (1 - 2 * s);
        }

        return p[Closed] + p[Height] * g;
    }

    public double Value(double t)
    {
        var p = Parameters;
        var opening = t < (p[T1] + p[T2]) / 2;
        return p[Closed] + p[Height] * (opening ? Opening.At((t - p[T0]) / (p[T1] - p[T0])) : Closing.At((t - p[T3]) / (p[T2] - p[T3])));
    }

    public double OpeningAt(double level) => Parameters[T0] + Opening.Crossing(level) * (Parameters[T1] - Parameters[T0]);

    public double ClosingAt(double level) => Parameters[T3] + Closing.Crossing(level) * (Parameters[T2] - Parameters[T3]);

    /// <summary>∫E dt over the main opening, in height × samples.</summary>
    public double Area =>
        (Parameters[T1] - Parameters[T0]) * Opening.Area + (Parameters[T2] - Parameters[T1]) + (Parameters[T3] - Parameters[T2]) * Closing.Area;
}
