namespace RepairShop.Measurement.ShutterTests;

/// <summary>The workshop's limits for exposure times: one for slow marks, one for fast marks.</summary>
public sealed record SpeedLimits
{
    /// <summary>Limits the workshop has chosen.</summary>
    /// <param name="name">What a person picks from a list, such as "±0.3 / ±0.45 stop".</param>
    /// <param name="slowMarksStops">Largest error either way for marks at the boundary and slower, in stops, greater than 0.</param>
    /// <param name="fastMarksStops">Largest error either way for marks faster than the boundary, in stops, greater than 0.</param>
    /// <param name="boundarySeconds">The fastest mark that still counts as slow, read literally, in seconds, greater than 0.</param>
    /// <param name="provenance">One sentence saying where the limits come from; printed beside the verdict.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public SpeedLimits(string name, double slowMarksStops, double fastMarksStops, double boundarySeconds, string provenance)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentException.ThrowIfNullOrWhiteSpace(provenance);
        SlowMarksStops = Guard.Positive(slowMarksStops);
        FastMarksStops = Guard.Positive(fastMarksStops);
        BoundarySeconds = Guard.Positive(boundarySeconds);
        (Name, Provenance) = (name, provenance);
    }

    /// <summary>
    /// ±0.3 stop to 1/125 s, ±0.45 stop above: quoted from JIS B 7091 by a page on shutters (ohkin.mydns.jp/archives/69); the standard's table
    /// itself was not read, and it calls its tolerances targets, not inspection limits.
    /// </summary>
    public static SpeedLimits Targets { get; } = new("±0.3 / ±0.45 stop", 0.3, 0.45, 1.0 / 125,
        "±0.3 stop to 1/125 s and ±0.45 stop above it are figures a secondary page quotes from JIS B 7091; that standard calls them targets for good results, not inspection limits.");

    /// <summary>What a person picks from a list.</summary>
    public string Name { get; }

    /// <summary>Largest error either way for marks at the boundary and slower, in stops, greater than 0.</summary>
    public double SlowMarksStops { get; }

    /// <summary>Largest error either way for marks faster than the boundary, in stops, greater than 0.</summary>
    public double FastMarksStops { get; }

    /// <summary>The fastest mark that still counts as slow, read literally, in seconds.</summary>
    public double BoundarySeconds { get; }

    /// <summary>One sentence saying where the limits come from.</summary>
    public string Provenance { get; }

    /// <summary>The limit for one mark, in stops either way; null for B and T. The mark is read literally here, whatever its reference time.</summary>
    /// <param name="mark">The mark.</param>
    public double? StopsFor(MarkedSpeed mark)
    {
        ArgumentNullException.ThrowIfNull(mark);
        if (mark.LiteralSeconds is not { } seconds) return null;
        return seconds >= BoundarySeconds * (1 - 1e-9) ? SlowMarksStops : FastMarksStops;
    }
}
