using System.Globalization;

namespace RepairShop.Measurement.Gauges;

/// <summary>A direction read as on a clock's face by the hour hand: twelve is the mark, hours run clockwise, 30° an hour.</summary>
public sealed record ClockPosition
{
    private const double DegreesAnHour = 30;

    private ClockPosition(double hours) => Hours = hours;

    /// <summary>Hours from twelve, 0 to below 12; half past two is 2.5.</summary>
    public double Hours { get; }

    /// <summary>The same as an angle clockwise from the mark at twelve, degrees, 0 to below 360.</summary>
    public double Degrees => Hours * DegreesAnHour;

    /// <summary>Seen in a mirror, for a spring wound the other way: two o'clock becomes ten.</summary>
    public ClockPosition Mirrored => FromHours(12 - Hours);

    /// <summary>From hours on the face; 12 and 0 are the same place.</summary>
    /// <param name="hours">0 to 12.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range, or NaN.</exception>
    public static ClockPosition FromHours(double hours) => hours is >= 0 and <= 12
        ? new(hours == 12 ? 0 : hours)
        : throw new ArgumentOutOfRangeException(nameof(hours), hours, "A clock position lies between 0 and 12.");

    /// <summary>From an angle clockwise from twelve; full turns are taken off.</summary>
    /// <param name="degrees">Any finite angle in degrees; minus is anticlockwise.</param>
    /// <exception cref="ArgumentOutOfRangeException">NaN or infinite.</exception>
    public static ClockPosition FromDegrees(double degrees)
    {
        var within = Math.IEEERemainder(Guard.Finite(degrees), 360);
        return FromHours(Math.Min((within < 0 ? within + 360 : within) / DegreesAnHour, 12));
    }

    /// <summary>Reads "2:30", "2.5", "2,5" or "12" as a place on the face.</summary>
    /// <param name="text">Anything at all; never throws.</param>
    /// <returns>The place, or null when the text is none.</returns>
    public static ClockPosition? Read(string? text)
    {
        var plain = (text ?? "").Trim().Replace(',', '.');
        if (plain.Split(':') is [var hour, { Length: 2 } minute])
        {
            return int.TryParse(hour, NumberStyles.None, CultureInfo.InvariantCulture, out var h) && h <= 12
                && int.TryParse(minute, NumberStyles.None, CultureInfo.InvariantCulture, out var m) && m < 60
                ? FromHours((h % 12) + m / 60.0)
                : null;
        }

        return double.TryParse(plain, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var hours) && hours is >= 0 and <= 12
            ? FromHours(hours)
            : null;
    }

    /// <summary>As it is said: "12:00", "2:30", to the nearest minute of the face (half a degree).</summary>
    public override string ToString()
    {
        var minutes = (int)Math.Round(Hours * 60, MidpointRounding.AwayFromZero) % 720;
        return string.Create(CultureInfo.InvariantCulture, $"{(minutes < 60 ? 12 : minutes / 60)}:{minutes % 60:00}");
    }
}
