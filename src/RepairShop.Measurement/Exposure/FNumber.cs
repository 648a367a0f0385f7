namespace RepairShop.Measurement.Exposure;

/// <summary>F-numbers as engraved and as meant.</summary>
public static class FNumber
{
    /// <summary>Rounding on a ring moves a whole-stop mark by at most this many stops: f/22 stands for 22.627, 0.081 stop off.</summary>
    private const double RoundingStops = 0.1;

    /// <summary>The f-number of a whole stop, √2 to the power <paramref name="stop"/>: 1, 1.41421, 2, 2.82843 …</summary>
    /// <param name="stop">Whole stops from f/1, −8 to 24.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    public static double OfStop(int stop)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(stop, -8);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(stop, 24);
        return Math.Pow(2, stop / 2.0);
    }

    /// <summary>
    /// The value a mark on an aperture ring stands for: 5.6 is 5.65685, 11 is 11.3137. A mark that is no whole stop (1.7, 4.5, 6.3) stands for itself.
    /// </summary>
    /// <param name="mark">The f-number as engraved, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double TrueValue(double mark)
    {
        var stops = ExposureValue.Av(mark);
        var nearest = Math.Round(stops);
        return nearest is >= -8 and <= 24 && Math.Abs(stops - nearest) <= RoundingStops ? OfStop((int)nearest) : mark;
    }
}
