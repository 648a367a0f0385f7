using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Exposure;

namespace RepairShop.Measurement.Gauges;

/// <summary>Single quantities of the bench with the limits the trade holds them against. A workshop may hold them against its own instead.</summary>
public static class PlainGauges
{
    /// <summary>Run of a self-timer, seconds; about 8 to 12 s is common practice.</summary>
    /// <param name="seconds">From release to the shutter's opening, greater than 0.</param>
    /// <param name="low">Lower limit, seconds; null for none.</param>
    /// <param name="high">Upper limit, seconds; null for none.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite, or limits crossed.</exception>
    public static Gauge SelfTimer(double seconds, double? low = 8, double? high = 12) => new(Guard.Positive(seconds), "s", low, high);

    /// <summary>
    /// Time from an M contact's closing to the blades standing fully open, milliseconds; about 15 to 20 ms is common practice (a class M bulb peaks
    /// after 20 ms nominally).
    /// </summary>
    /// <param name="milliseconds">Either sign; minus when the contact closes after full opening.</param>
    /// <param name="low">Lower limit, ms; null for none.</param>
    /// <param name="high">Upper limit, ms; null for none.</param>
    /// <exception cref="ArgumentOutOfRangeException">NaN or infinite, or limits crossed.</exception>
    public static Gauge ContactM(double milliseconds, double? low = 15, double? high = 20) => new(milliseconds, "ms", low, high);

    /// <summary>
    /// Time from the blades standing fully open to an X contact's closing, milliseconds: not before they are open (common practice), and while they still are.
    /// </summary>
    /// <param name="milliseconds">Either sign; minus when the contact closes too early.</param>
    /// <param name="fullyOpenMilliseconds">How long the blades rest open at that speed, ms, 0 or more; null when not measured.</param>
    /// <exception cref="ArgumentOutOfRangeException">NaN or infinite, or a negative rest.</exception>
    public static Gauge ContactX(double milliseconds, double? fullyOpenMilliseconds = null) =>
        new(milliseconds, "ms", 0, fullyOpenMilliseconds is { } rest ? Guard.NotNegative(rest, nameof(fullyOpenMilliseconds)) : null);

    /// <summary>
    /// How far an iris is off its mark, stops, from the diameters of two openings: 2·log2(widest/measured) less the stops between the marks, as areas go with the
    /// square of the diameter and a stop is a factor of two (APEX, Av = 2·log2 N). Plus is too small an opening. Both are measured the same way, so that
    /// the front lens enlarges both alike.
    /// </summary>
    /// <param name="widestDiameter">Opening at the widest mark, any unit of length, greater than 0.</param>
    /// <param name="widestMark">That mark, greater than 0.</param>
    /// <param name="diameter">Opening at the mark looked at, the same unit, greater than 0.</param>
    /// <param name="mark">The mark looked at, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double IrisErrorStops(double widestDiameter, double widestMark, double diameter, double mark) =>
        2 * Math.Log2(Guard.Positive(widestDiameter) / Guard.Positive(diameter))
        - (ExposureValue.Av(FNumber.TrueValue(mark)) - ExposureValue.Av(FNumber.TrueValue(widestMark)));

    /// <summary>Ratio of two openings' areas, (a/b)², dimensionless.</summary>
    /// <param name="diameter">One diameter, greater than 0.</param>
    /// <param name="other">The other, the same unit, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double AreaRatio(double diameter, double other)
    {
        var ratio = Guard.Positive(diameter) / Guard.Positive(other);
        return ratio * ratio;
    }
}
