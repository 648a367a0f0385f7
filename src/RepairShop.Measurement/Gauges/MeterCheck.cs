using MathNet.Numerics;

namespace RepairShop.Measurement.Gauges;

/// <summary>
/// A light meter against a known light, over its range. Errors in stops: plus when the meter sees more light than there is (pictures come out too dark).
/// A substitute cell's voltage shifts the whole line; this only measures, it does not correct.
/// </summary>
public sealed record MeterCheck
{
    private MeterCheck(IReadOnlyList<MeterPoint> points) => Points = points;

    /// <summary>The points, dimmest first.</summary>
    public IReadOnlyList<MeterPoint> Points { get; private init; }

    /// <summary>Mean error, stops.</summary>
    public double MeanError { get; private init; }

    /// <summary>The error furthest from 0, with its sign, stops.</summary>
    public double WorstError { get; private init; }

    /// <summary>Slope of the least-squares line through reading against light, 1 for a true meter; null with fewer than three points or no range of light.</summary>
    public double? Slope { get; private init; }

    /// <summary>Largest distance of a point from that line, stops: what no adjustment of scale and slope removes; null where there is no line.</summary>
    public double? Linearity { get; private init; }

    /// <summary>Puts points together.</summary>
    /// <param name="points">One or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">No point, or one that is NaN or infinite.</exception>
    public static MeterCheck Of(IEnumerable<MeterPoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        var sorted = points.OrderBy(point => point.Light).ToList();
        if (sorted.Count == 0) throw new ArgumentOutOfRangeException(nameof(points), "A meter check needs at least one point.");
        foreach (var point in sorted)
            (_, _) = (Guard.Finite(point.Light), Guard.Finite(point.Reading));
        var line = Line(sorted);
        return new MeterCheck(sorted)
        {
            MeanError = sorted.Average(point => point.Error),
            WorstError = sorted.MaxBy(point => Math.Abs(point.Error))!.Error,
            Slope = line?.Slope,
            Linearity = line is { } found ? sorted.Max(point => Math.Abs(point.Reading - found.At0 - found.Slope * point.Light)) : null,
        };
    }

    private static (double At0, double Slope)? Line(List<MeterPoint> sorted)
    {
        if (sorted.Count < 3 || sorted[^1].Light <= sorted[0].Light) return null;
        var (at0, slope) = Fit.Line([.. sorted.Select(point => point.Light)], [.. sorted.Select(point => point.Reading)]);
        return (at0, slope);
    }
}

/// <summary>One reading of a meter.</summary>
/// <param name="Light">What is really there, as an exposure value at the film speed set, stops.</param>
/// <param name="Reading">What the meter says, the same way, stops.</param>
public sealed record MeterPoint(double Light, double Reading)
{
    /// <summary>Reading less light, stops.</summary>
    public double Error => Reading - Light;
}
