namespace RepairShop.Measurement.Statistics;

/// <summary>What a handful of repeated readings says, in the unit the readings came in.</summary>
/// <param name="Count">How many readings, 1 or more.</param>
/// <param name="Mean">Arithmetic mean, in the readings' unit.</param>
/// <param name="StandardDeviation">
/// Experimental standard deviation with n − 1 (JCGM 100:2008, 4.2.2), in the readings' unit, 0 or more; null for a single reading,
/// which carries no information about scatter.
/// </param>
/// <param name="Minimum">Smallest reading, in the readings' unit.</param>
/// <param name="Maximum">Largest reading, in the readings' unit.</param>
public sealed record Summary(int Count, double Mean, double? StandardDeviation, double Minimum, double Maximum)
{
    /// <summary>Experimental standard deviation of the mean, s/√n (JCGM 100:2008, 4.2.3); null for a single reading.</summary>
    public double? StandardDeviationOfMean => StandardDeviation / Math.Sqrt(Count);

    /// <summary>
    /// Summarises readings. The mean is a compensated sum (Neumaier 1974) corrected by the mean residual, the deviation a second pass over
    /// the residuals with Björck's correction term, so that a large common offset costs no digits.
    /// </summary>
    /// <param name="readings">One or more finite readings in any one unit.</param>
    /// <exception cref="ArgumentOutOfRangeException">No reading, or one that is NaN or infinite.</exception>
    public static Summary Of(ReadOnlySpan<double> readings)
    {
        if (readings.IsEmpty) throw new ArgumentOutOfRangeException(nameof(readings), "A summary needs at least one reading.");
        double minimum = double.PositiveInfinity, maximum = double.NegativeInfinity;
        foreach (var reading in readings)
        {
            Guard.Finite(reading, nameof(readings));
            minimum = Math.Min(minimum, reading);
            maximum = Math.Max(maximum, reading);
        }

        var count = readings.Length;
        var rough = Sum(readings, 0) / count;
        var mean = rough + Sum(readings, rough) / count;
        // Rounding may push the mean of equal readings a last digit past them.
        mean = Math.Clamp(mean, minimum, maximum);
        if (count == 1) return new(1, mean, null, minimum, maximum);

        double squares = 0, residuals = 0;
        foreach (var reading in readings)
        {
            var residual = reading - mean;
            squares += residual * residual;
            residuals += residual;
        }

        var variance = Math.Max(0, squares - residuals * residuals / count) / (count - 1);
        return new(count, mean, Math.Sqrt(variance), minimum, maximum);
    }

    private static double Sum(ReadOnlySpan<double> readings, double offset)
    {
        double sum = 0, lost = 0;
        foreach (var reading in readings)
        {
            var term = reading - offset;
            var next = sum + term;
            lost += Math.Abs(sum) >= Math.Abs(term) ? sum - next + term : term - next + sum;
            sum = next;
        }

        return sum + lost;
    }
}
