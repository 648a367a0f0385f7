using RepairShop.Measurement.Checks;

namespace RepairShop.Measurement.Gauges;

/// <summary>
/// An unhooked mainspring's strength from where its end comes to rest: the tab stands at twelve while hooked; the further round the free end stands,
/// the more the spring has set. Common practice: near two as new, near three serviceable, near four tired, and the blades will close lazily.
/// </summary>
public static class SpringAtRest
{
    /// <summary>Unit of the gauge: hours of the face.</summary>
    public const string Unit = "o'clock";

    /// <summary>Judges where the end stands: the nearest of the three places wins, half way counts as the worse one.</summary>
    /// <param name="end">Where the end rests, the mark at twelve, seen so that the spring opens clockwise (else take <see cref="ClockPosition.Mirrored"/>).</param>
    /// <param name="places">The places for this camera; null for common practice.</param>
    public static SpringState StateOf(ClockPosition end, SpringPlaces? places = null)
    {
        ArgumentNullException.ThrowIfNull(end);
        var at = places ?? SpringPlaces.CommonPractice;
        if (end.Hours < at.AsNew - (at.Serviceable - at.AsNew) / 2 || end.Hours > at.FarthestLikely) return SpringState.Unlikely;
        return end.Hours < Between(at.AsNew, at.Serviceable) ? SpringState.AsNew
            : end.Hours < at.TiredFrom ? SpringState.Serviceable
            : SpringState.Tired;
    }

    /// <summary>The same as a gauge in <see cref="Unit"/>: within up to where "serviceable" ends.</summary>
    /// <param name="end">Where the end rests.</param>
    /// <param name="places">The places for this camera; null for common practice.</param>
    public static Gauge GaugeOf(ClockPosition end, SpringPlaces? places = null)
    {
        ArgumentNullException.ThrowIfNull(end);
        return new(Math.Round(end.Hours, 2), Unit, null, (places ?? SpringPlaces.CommonPractice).TiredFrom);
    }

    internal static double Between(double one, double other) => (one + other) / 2;
}

/// <summary>What a spring's resting place says of it.</summary>
public enum SpringState
{
    /// <summary>Near the first place.</summary>
    AsNew,

    /// <summary>Near the second: works, and has set a little.</summary>
    Serviceable,

    /// <summary>Near the third or beyond: the blades will close lazily.</summary>
    Tired,

    /// <summary>Nearer to the mark than a new one, or past seven o'clock: another spring, still hooked, or read from the wrong side.</summary>
    Unlikely,
}

/// <summary>The three places on the clock's face a spring's end is held against, hours from the mark at twelve.</summary>
public sealed record SpringPlaces
{
    /// <summary>Places of one kind of shutter, from a notebook.</summary>
    /// <param name="asNew">Where a new spring's end stands, 0 or more.</param>
    /// <param name="serviceable">Where a serviceable one stands, beyond <paramref name="asNew"/>.</param>
    /// <param name="tired">Where a tired one stands, beyond <paramref name="serviceable"/>, at most 12.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not in that order, outside 0 to 12, or NaN.</exception>
    public SpringPlaces(double asNew, double serviceable, double tired)
    {
        if (!(asNew >= 0)) throw new ArgumentOutOfRangeException(nameof(asNew), asNew, "A clock position lies between 0 and 12.");
        if (!(serviceable > asNew)) throw new ArgumentOutOfRangeException(nameof(serviceable), serviceable, "Serviceable comes after as new.");
        if (!(tired > serviceable && tired <= 12)) throw new ArgumentOutOfRangeException(nameof(tired), tired, "Tired comes after serviceable, at most at twelve.");
        (AsNew, Serviceable, Tired) = (asNew, serviceable, tired);
    }

    /// <summary>Two, three and four o'clock; common practice.</summary>
    public static SpringPlaces CommonPractice { get; } = new(2, 3, 4);

    /// <summary>Where a new spring's end stands, hours.</summary>
    public double AsNew { get; }

    /// <summary>Where a serviceable one stands, hours.</summary>
    public double Serviceable { get; }

    /// <summary>Where a tired one stands, hours.</summary>
    public double Tired { get; }

    /// <summary>From here on a spring counts as tired, hours: half way between serviceable and tired.</summary>
    public double TiredFrom => SpringAtRest.Between(Serviceable, Tired);

    /// <summary>Beyond this nobody has seen a spring of that kind rest, hours: three more than tired. A choice of ours against misreading.</summary>
    public double FarthestLikely => Math.Min(Tired + 3, 12);
}
