namespace RepairShop.Measurement.ShutterTests;

/// <summary>Errors of exposure times in stops (EV) and in percent.</summary>
public static class Stops
{
    /// <summary>Error in stops, log2(measured / reference): plus is longer, over-exposed; minus is shorter, under-exposed.</summary>
    /// <param name="measuredSeconds">Measured exposure time in seconds, greater than 0.</param>
    /// <param name="referenceSeconds">The time it is held against, in seconds, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double Error(double measuredSeconds, double referenceSeconds) =>
        Math.Log2(Guard.Positive(measuredSeconds) / Guard.Positive(referenceSeconds));

    /// <summary>The same error in percent of the reference, 100·(2^stops − 1): +0.3 stop is +23.1144 %, −0.3 stop is −18.7748 %.</summary>
    /// <param name="stops">Error in stops, either sign.</param>
    /// <exception cref="ArgumentOutOfRangeException">NaN, infinite, or beyond ±1000 stops.</exception>
    public static double ToPercent(double stops)
    {
        if (!(Math.Abs(stops) <= 1000)) throw new ArgumentOutOfRangeException(nameof(stops), stops, "An error must be a number within ±1000 stops.");
        return 100 * (Math.Pow(2, stops) - 1);
    }

    /// <summary>The same error in stops, log2(1 + percent/100): +25 % is +0.32193 stop, −25 % is −0.41504 stop.</summary>
    /// <param name="percent">Error in percent of the reference, greater than −100.</param>
    /// <exception cref="ArgumentOutOfRangeException">−100 or less (no time left), NaN or infinite.</exception>
    public static double FromPercent(double percent)
    {
        if (!(percent > -100) || !double.IsFinite(percent))
            throw new ArgumentOutOfRangeException(nameof(percent), percent, "An error must be a number above -100 %.");
        return Math.Log2(1 + percent / 100);
    }
}
