namespace RepairShop.Measurement.Gauges;

/// <summary>
/// A flash unit's storage capacitor: what it holds, and how long a resistor needs. Typical units hold 250–330 V; 10 J may kill, and more than a quarter
/// of a joule is to be avoided (D. Klipstein, "Xenon strobe safety"). Waiting is no proof: measure before touching, and again, since it can recover.
/// </summary>
public sealed record FlashCapacitor
{
    /// <summary>Stored energy from which a discharge through the body must be avoided, joules (D. Klipstein, as above).</summary>
    public const double AvoidAboveJoules = 0.25;

    /// <summary>Stored energy that may kill, joules (D. Klipstein, as above).</summary>
    public const double MayKillJoules = 10;

    /// <summary>What may be left before fingers go in, volts; a cautious choice of ours.</summary>
    public const double DefaultSafeVolts = 1;

    /// <summary>A charged capacitor and the resistor across it.</summary>
    /// <param name="farads">Capacity C, farads, greater than 0; electrolytics may have a fifth more than written.</param>
    /// <param name="volts">Voltage at the start V0, volts, greater than 0.</param>
    /// <param name="ohms">Resistor R, ohms, greater than 0.</param>
    /// <param name="safeVolts">What may be left, volts, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zero, negative, NaN or infinite.</exception>
    public FlashCapacitor(double farads, double volts, double ohms, double safeVolts = DefaultSafeVolts) =>
        (Farads, Volts, Ohms, SafeVolts) = (Guard.Positive(farads), Guard.Positive(volts), Guard.Positive(ohms), Guard.Positive(safeVolts));

    /// <summary>C, farads.</summary>
    public double Farads { get; }

    /// <summary>V0, volts.</summary>
    public double Volts { get; }

    /// <summary>R, ohms.</summary>
    public double Ohms { get; }

    /// <summary>What may be left, volts.</summary>
    public double SafeVolts { get; }

    /// <summary>Stored energy ½CV², joules.</summary>
    public double Joules => Farads * Volts * Volts / 2;

    /// <summary>Time constant RC, seconds.</summary>
    public double TimeConstantSeconds => Ohms * Farads;

    /// <summary>
    /// How long to hold the resistor on, t = RC·ln(V0/Vsafe), seconds; 0 when nothing is above safe. A rule of so many time constants is not safe by itself:
    /// from 330 V five of them leave 2.2 V, and reaching 1 V takes 5.8.
    /// </summary>
    public double WaitSeconds => Math.Max(0, TimeConstantSeconds * Math.Log(Volts / SafeVolts));

    /// <summary>Power in the resistor at the first moment, V0²/R, watts: an ordinary quarter-watt resistor does not stand a hundred times that.</summary>
    public double PeakWatts => Volts * Volts / Ohms;

    /// <summary>Voltage after a time, V0·e^(−t/RC), volts.</summary>
    /// <param name="seconds">0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative, NaN or infinite.</exception>
    public double VoltsAfter(double seconds) => Volts * Math.Exp(-Guard.NotNegative(seconds) / TimeConstantSeconds);
}
