using RepairShop.Measurement.Exposure;
using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Measurement.Gauges;

/// <summary>
/// A between-lens shutter whose aperture ring is coupled to its speed ring: turned together, every pair must hold one exposure value,
/// Ev = Av + Tv (APEX, ASA PH2.5-1960). The ring is set at one pair and read at all the others.
/// </summary>
public static class EvCoupling
{
    /// <summary>A mark further than this from the aperture asked for is no mark of that pair; a quarter stop tells half stops apart.</summary>
    public const double SameMarkStops = 0.25;

    /// <summary>
    /// The pairs that must hold at one exposure value, one for each speed whose aperture lies on the ring; the coupling stops at the ring's ends,
    /// so other speeds have no pair. T and B have none either.
    /// </summary>
    /// <param name="value">The exposure value the rings are coupled at, stops, at film speed as engraved (no film speed enters).</param>
    /// <param name="speeds">The marks of the speed ring, any order.</param>
    /// <param name="apertureMarks">F-numbers as engraved, each greater than 0, at least one.</param>
    /// <param name="rule">Which time stands behind a mark; take it through <see cref="SpeedSeries.RuleFor"/>.</param>
    /// <returns>Longest time first.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value that is NaN or beyond ±30, no aperture, or an aperture that is none.</exception>
    public static IReadOnlyList<EvPair> PairsAt(
        double value, IEnumerable<MarkedSpeed> speeds, IReadOnlyList<double> apertureMarks, ReferenceRule rule)
    {
        ArgumentNullException.ThrowIfNull(speeds);
        ArgumentNullException.ThrowIfNull(apertureMarks);
        if (!(Math.Abs(value) <= 30)) throw new ArgumentOutOfRangeException(nameof(value), value, "An exposure value must be a number within ±30.");
        if (apertureMarks.Count == 0) throw new ArgumentOutOfRangeException(nameof(apertureMarks), "An aperture ring needs at least one mark.");
        var ring = apertureMarks.Select(mark => (Mark: mark, Stops: ExposureValue.Av(FNumber.TrueValue(mark)))).OrderBy(one => one.Stops).ToList();
        return
        [
            .. from speed in speeds
               let seconds = speed.ReferenceSeconds(rule)
               where seconds is not null
               let wanted = value - ExposureValue.Tv(seconds.Value)
               where wanted >= ring[0].Stops - SameMarkStops && wanted <= ring[^1].Stops + SameMarkStops
               orderby seconds descending
               select Pair(speed, seconds.Value, wanted, ring),
        ];
    }

    /// <summary>How far a pair is off the value it should hold, stops: plus when the aperture stands too small (under-exposed), minus when too wide.</summary>
    /// <param name="value">The exposure value the rings are coupled at, stops.</param>
    /// <param name="pair">The pair as it should be.</param>
    /// <param name="apertureRead">The f-number the ring really shows; a whole-stop mark stands for its true value, any other for itself.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value that is not finite, or an f-number that is not greater than 0.</exception>
    public static double OffStops(double value, EvPair pair, double apertureRead)
    {
        ArgumentNullException.ThrowIfNull(pair);
        return ExposureValue.Ev(FNumber.TrueValue(apertureRead), pair.Seconds) - Guard.Finite(value);
    }

    private static EvPair Pair(MarkedSpeed speed, double seconds, double wanted, List<(double Mark, double Stops)> ring)
    {
        var (mark, stops) = ring.MinBy(one => Math.Abs(one.Stops - wanted));
        var near = Math.Abs(stops - wanted) <= SameMarkStops;
        return new(speed, seconds, Math.Pow(2, wanted / 2), near ? mark : null, near ? stops - wanted : null);
    }
}

/// <summary>One pair of a coupled shutter.</summary>
/// <param name="Speed">The mark of the speed ring.</param>
/// <param name="Seconds">The time it stands for, seconds.</param>
/// <param name="FNumber">The aperture that holds the value with it, exactly.</param>
/// <param name="Mark">The ring's mark for that aperture; null where it falls between two marks.</param>
/// <param name="MarkOffStops">How far that mark itself misses the value, stops, at most <see cref="EvCoupling.SameMarkStops"/> either way; null without a mark.
/// 0 for true binary times; old speeds (1/25, 1/100) leave a rest no adjusting removes.</param>
public sealed record EvPair(MarkedSpeed Speed, double Seconds, double FNumber, double? Mark, double? MarkOffStops);
