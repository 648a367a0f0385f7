using RepairShop.Measurement.Checks;

namespace RepairShop.Measurement.Gauges;

/// <summary>
/// A coincidence rangefinder: what it can tell, and how far off it is. The error of setting is dD = D²·dθ/(M·B) (W. J. Smith, Modern Optical
/// Engineering, ch. 13, eq. 13.17–13.18c).
/// </summary>
public static class Rangefinder
{
    /// <summary>The eye's vernier acuity, 10 seconds of arc, radians (W. J. Smith, as above).</summary>
    public const double VernierAcuity = 5e-5;

    /// <summary>One minute of arc, radians: the looser figure of camera handbooks; from memory.</summary>
    public const double OneMinute = 2.9088820866572158e-4;

    /// <summary>How far the setting may miss because the eye can tell no more, D²·dθ/(M·B), mm.</summary>
    /// <param name="distance">D, mm, greater than 0.</param>
    /// <param name="baseLength">B between the two windows, mm, greater than 0.</param>
    /// <param name="magnification">M of the viewing system, greater than 0.</param>
    /// <param name="acuity">dθ, radians, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double SettingError(double distance, double baseLength, double magnification = 1, double acuity = VernierAcuity) =>
        Guard.Positive(distance) * distance * Guard.Positive(acuity) / (Guard.Positive(baseLength) * Guard.Positive(magnification));

    /// <summary>Effective base M·B that keeps the setting error's blur within c at every distance, f²·dθ/(N·c), mm.</summary>
    /// <param name="focalLength">f, mm, greater than 0.</param>
    /// <param name="fNumber">N, greater than 0.</param>
    /// <param name="circle">c, mm, greater than 0.</param>
    /// <param name="acuity">dθ, radians, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double BaseNeeded(double focalLength, double fNumber, double circle = Focus.CommonCircle, double acuity = VernierAcuity) =>
        Guard.Positive(focalLength) * focalLength * Guard.Positive(acuity) / (Guard.Positive(fNumber) * Guard.Positive(circle));

    /// <summary>
    /// What a wrong reading does at the film: the extension of the distance shown less that of the true one, mm; minus when the lens stands too
    /// near the film. Judged against ±Nc(1 + m), half the depth of focus at the true distance.
    /// </summary>
    /// <param name="focalLength">f, mm, greater than 0.</param>
    /// <param name="fNumber">N of the widest aperture, greater than 0.</param>
    /// <param name="shown">What the scale says when the images meet, mm from the film; null for infinity.</param>
    /// <param name="actual">Where the target is, mm from the film; null for infinity.</param>
    /// <param name="circle">c, mm, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A distance below four focal lengths; zero, negative, NaN or infinite.</exception>
    public static Gauge FilmError(double focalLength, double fNumber, double? shown, double? actual, double circle = Focus.CommonCircle)
    {
        var atActual = ExtensionFor(focalLength, actual);
        var half = Focus.Depth(fNumber, circle, atActual / focalLength) / 2;
        return new Gauge(Math.Round(ExtensionFor(focalLength, shown) - atActual, 6), "mm", -half, half);
    }

    private static double ExtensionFor(double focalLength, double? filmDistance) =>
        filmDistance is { } distance ? Focus.Extension(focalLength, Focus.ObjectDistance(focalLength, distance)) : 0;
}
