namespace RepairShop.Measurement.Gauges;

/// <summary>
/// Thin-lens arithmetic of the bench, lengths in millimetres (D. Jacobson, "Lens Tutorial": 1/So + 1/Si = 1/f, M = f/(So − f),
/// (So − f)·(Si − f) = f²; depth of focus 2Nc(1 + m)). Object distances run from the front principal plane unless a method says otherwise.
/// </summary>
public static class Focus
{
    /// <summary>Circle of confusion of general use for 24 × 36 mm, millimetres; common practice.</summary>
    public const double CommonCircle = 0.03;

    /// <summary>Extension beyond the infinity stop, f²/(u − f), mm.</summary>
    /// <param name="focalLength">f, mm, greater than 0.</param>
    /// <param name="objectDistance">u, mm, greater than f.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside those ranges, NaN or infinite.</exception>
    public static double Extension(double focalLength, double objectDistance) =>
        Guard.Positive(focalLength) * focalLength / Guard.Positive(objectDistance - focalLength, nameof(objectDistance));

    /// <summary>Magnification m = f/(u − f), dimensionless; 0.125 is 1:8.</summary>
    /// <param name="focalLength">f, mm, greater than 0.</param>
    /// <param name="objectDistance">u, mm, greater than f.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside those ranges, NaN or infinite.</exception>
    public static double Magnification(double focalLength, double objectDistance) =>
        Extension(focalLength, objectDistance) / focalLength;

    /// <summary>The plane an extension focuses, u = f + f²/e, mm.</summary>
    /// <param name="focalLength">f, mm, greater than 0.</param>
    /// <param name="extension">e, mm; 0 or less focuses at infinity or past it.</param>
    /// <returns>mm from the front principal plane; null for infinity and beyond.</returns>
    /// <exception cref="ArgumentOutOfRangeException">f not greater than 0, NaN or infinite.</exception>
    public static double? PlaneOf(double focalLength, double extension)
    {
        Guard.Positive(focalLength);
        if (Guard.Finite(extension) <= 0) return null;
        var plane = focalLength + focalLength * focalLength / extension;
        return double.IsFinite(plane) ? plane : null;
    }

    /// <summary>Object distance for a distance measured from the film, as distance scales are: u = (D + √(D² − 4fD))/2 with D = u + v of a thin lens, mm.</summary>
    /// <param name="focalLength">f, mm, greater than 0.</param>
    /// <param name="filmDistance">D, mm, at least 4f (a thin lens comes no nearer).</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside those ranges, NaN or infinite.</exception>
    public static double ObjectDistance(double focalLength, double filmDistance)
    {
        Guard.Positive(focalLength);
        if (!(Guard.Positive(filmDistance) >= 4 * focalLength))
            throw new ArgumentOutOfRangeException(nameof(filmDistance), filmDistance, "A distance from the film is at least four focal lengths.");
        return (filmDistance + Math.Sqrt(filmDistance * (filmDistance - 4 * focalLength))) / 2;
    }

    /// <summary>Total depth of focus 2Nc(1 + m), mm: the film may lie half of it either way.</summary>
    /// <param name="fNumber">N, greater than 0.</param>
    /// <param name="circle">Circle of confusion c, mm, greater than 0.</param>
    /// <param name="magnification">m, 0 for far objects.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside those ranges, NaN or infinite.</exception>
    public static double Depth(double fNumber, double circle, double magnification = 0) =>
        2 * Guard.Positive(fNumber) * Guard.Positive(circle) * (1 + Guard.NotNegative(magnification));

    /// <summary>Hyperfocal distance f²/(Nc) + f, mm.</summary>
    /// <param name="focalLength">f, mm, greater than 0.</param>
    /// <param name="fNumber">N, greater than 0.</param>
    /// <param name="circle">c, mm, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside those ranges, NaN or infinite.</exception>
    public static double Hyperfocal(double focalLength, double fNumber, double circle) =>
        Guard.Positive(focalLength) * focalLength / (Guard.Positive(fNumber) * Guard.Positive(circle)) + focalLength;
}
