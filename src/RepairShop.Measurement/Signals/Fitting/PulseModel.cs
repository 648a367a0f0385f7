namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>
/// One opening and closing: closed level, height, four times and two shapes. Times are in samples; the order of <see cref="Parameters"/> is
/// closed, height, t0 (leaves closed), t1 (open), t2 (begins to close), t3 (closed), the terms of the opening's shape, those of the closing's.
/// </summary>
internal sealed class PulseModel
{
    public const int Closed = 0, Height = 1, T0 = 2, T1 = 3, T2 = 4, T3 = 5, OpeningShape = 6, ClosingShape = OpeningShape + EdgeShape.Count;
    public const int Size = ClosingShape + EdgeShape.Count;

    /// <summary>No edge is steeper than this many samples.</summary>
    public const double LeastEdge = 0.7;

    public double[] Parameters { get; init; } = new double[Size];

    public EdgeShape Opening => new(Parameters.AsSpan(OpeningShape, EdgeShape.Count));

    public EdgeShape Closing => new(Parameters.AsSpan(ClosingShape, EdgeShape.Count));

    /// <summary>∫E dt over the main opening, in height × samples.</summary>
    public double Area =>
        (Parameters[T1] - Parameters[T0]) * Opening.Area + (Parameters[T2] - Parameters[T1]) + (Parameters[T3] - Parameters[T2]) * Closing.Area;

    public double this[int index] => Parameters[index];

    /// <summary>Value at a time and its slope with each parameter.</summary>
    /// <returns>The value, and the first shape term whose slopes are not 0; 0 for none.</returns>
    public (double Value, int Shape) At(double t, Span<double> slopes)
    {
        var p = Parameters;
        var isOpening = t < (p[T1] + p[T2]) / 2;
        var (start, length, terms) = isOpening ? (p[T0], p[T1] - p[T0], OpeningShape) : (p[T3], p[T2] - p[T3], ClosingShape);
        var s = (t - start) / length;
        slopes[Closed] = 1;
        if (s is <= 0 or >= 1)
        {
            slopes[Height] = s <= 0 ? 0 : 1;
            return (p[Closed] + p[Height] * slopes[Height], 0);
        }

        slopes.Clear();
        slopes[Closed] = 1;
        var withTerms = slopes.Slice(terms, EdgeShape.Count);
        var g = new EdgeShape(p.AsSpan(terms, EdgeShape.Count)).At(s, withTerms, out var slope);
        for (var k = 0; k < withTerms.Length; k++) withTerms[k] *= p[Height];
        slopes[Height] = g;
        var steep = p[Height] * slope / length;
        var (first, second) = isOpening ? (T0, T1) : (T3, T2);
        slopes[first] = steep * (s - 1);
        slopes[second] = -steep * s;
        return (p[Closed] + p[Height] * g, terms);
    }

    public double Value(double t)
    {
        var p = Parameters;
        var isOpening = t < (p[T1] + p[T2]) / 2;
        return p[Closed] + p[Height] * (isOpening ? Opening.At((t - p[T0]) / (p[T1] - p[T0])) : Closing.At((t - p[T3]) / (p[T2] - p[T3])));
    }

    public double OpeningAt(double level) => Parameters[T0] + Opening.Crossing(level) * (Parameters[T1] - Parameters[T0]);

    public double ClosingAt(double level) => Parameters[T3] + Closing.Crossing(level) * (Parameters[T2] - Parameters[T3]);
}
