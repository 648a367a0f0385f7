namespace RepairShop.Measurement.Exposure;

/// <summary>
/// Exposure arithmetic in stops after APEX (ASA PH2.5-1960; D. Kerr, "APEX – Additive System of Photographic Exposure"):
/// Ev = Av + Tv, Av = 2·log2 N, Tv = −log2 t.
/// </summary>
public static class ExposureValue
{
    /// <summary>Calibration constant of a reflected-light meter, cd·s/m², inside the 10.6–13.4 that ISO 2720:1974 permits (J. Conrad, "Exposure Metering").</summary>
    public const double ReflectedConstant = 12.5;

    /// <summary>Calibration constant of an incident-light meter with a flat receptor, lx·s; common practice.</summary>
    public const double IncidentConstant = 250;

    /// <summary>Aperture value Av = 2·log2 N in stops; 0 at f/1, more for smaller apertures.</summary>
    /// <param name="fNumber">The f-number N, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double Av(double fNumber) => 2 * Math.Log2(Guard.Positive(fNumber));

    /// <summary>Time value Tv = −log2 t in stops; 0 at 1 s, more for shorter times.</summary>
    /// <param name="exposureSeconds">Exposure time in seconds, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double Tv(double exposureSeconds) => -Math.Log2(Guard.Positive(exposureSeconds));

    /// <summary>Exposure value of a camera setting, Ev = Av + Tv = log2(N²/t), in stops; 0 at f/1 and 1 s.</summary>
    /// <param name="fNumber">The f-number N, greater than 0.</param>
    /// <param name="exposureSeconds">Exposure time in seconds, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double Ev(double fNumber, double exposureSeconds) => Av(fNumber) + Tv(exposureSeconds);

    /// <summary>Exposure value brought to ISO 100, Ev − log2(S/100), in stops.</summary>
    /// <param name="fNumber">The f-number N, greater than 0.</param>
    /// <param name="exposureSeconds">Exposure time in seconds, greater than 0.</param>
    /// <param name="isoSpeed">Film speed S (arithmetic ISO), greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double Ev100(double fNumber, double exposureSeconds, double isoSpeed) =>
        Ev(fNumber, exposureSeconds) - Math.Log2(Guard.Positive(isoSpeed) / 100);

    /// <summary>Mean luminance a setting is right for, L = K·N²/(t·S), cd/m² (ISO 2720:1974).</summary>
    /// <param name="fNumber">The f-number N, greater than 0.</param>
    /// <param name="exposureSeconds">Exposure time in seconds, greater than 0.</param>
    /// <param name="isoSpeed">Film speed S (arithmetic ISO), greater than 0.</param>
    /// <param name="constant">K in cd·s/m², greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double Luminance(double fNumber, double exposureSeconds, double isoSpeed, double constant = ReflectedConstant) =>
        Scene(fNumber, exposureSeconds, isoSpeed, constant);

    /// <summary>Illuminance a setting is right for, E = C·N²/(t·S), lx (ISO 2720:1974).</summary>
    /// <param name="fNumber">The f-number N, greater than 0.</param>
    /// <param name="exposureSeconds">Exposure time in seconds, greater than 0.</param>
    /// <param name="isoSpeed">Film speed S (arithmetic ISO), greater than 0.</param>
    /// <param name="constant">C in lx·s, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double Illuminance(double fNumber, double exposureSeconds, double isoSpeed, double constant = IncidentConstant) =>
        Scene(fNumber, exposureSeconds, isoSpeed, constant);

    /// <summary>Exposure value a luminance asks for, log2(L·S/K), in stops; 0.125 cd/m² is EV 0 at ISO 100.</summary>
    /// <param name="luminance">L in cd/m², greater than 0.</param>
    /// <param name="isoSpeed">Film speed S (arithmetic ISO), greater than 0.</param>
    /// <param name="constant">K in cd·s/m², greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double FromLuminance(double luminance, double isoSpeed = 100, double constant = ReflectedConstant) =>
        Math.Log2(Guard.Positive(luminance) * Guard.Positive(isoSpeed) / Guard.Positive(constant));

    /// <summary>Exposure value an illuminance asks for, log2(E·S/C), in stops; 2.5 lx is EV 0 at ISO 100.</summary>
    /// <param name="illuminance">E in lx, greater than 0.</param>
    /// <param name="isoSpeed">Film speed S (arithmetic ISO), greater than 0.</param>
    /// <param name="constant">C in lx·s, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public static double FromIlluminance(double illuminance, double isoSpeed = 100, double constant = IncidentConstant) =>
        Math.Log2(Guard.Positive(illuminance) * Guard.Positive(isoSpeed) / Guard.Positive(constant));

    private static double Scene(double fNumber, double exposureSeconds, double isoSpeed, double constant) =>
        Guard.Positive(constant) * Guard.Positive(fNumber) * fNumber / (Guard.Positive(exposureSeconds) * Guard.Positive(isoSpeed));
}
