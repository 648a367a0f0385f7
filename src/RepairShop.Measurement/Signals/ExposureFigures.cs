using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Measurement.Signals;

/// <summary>What a person should know about one exposure.</summary>
public enum ExposureRemark
{
    /// <summary>The blades opened again after closing; see <see cref="ExposureFigures.Bounces"/>.</summary>
    Bounce,

    /// <summary>The shutter closes before it has rested open: no level of its own to measure the effective time by.</summary>
    NeverRestsOpen,

    /// <summary>Little light: below 26 dB over the noise.</summary>
    LittleLight,

    /// <summary>The lamp flickers by more than ±5 %.</summary>
    StrongRipple,

    /// <summary>A few samples reach the ceiling, not enough to spoil the figures.</summary>
    NearClipping,

    /// <summary>Longer than 0.69 τ of the input: the record had drooped below half before closing and stands on the droop's correction.</summary>
    DroopBeyondHalf,
}

/// <summary>Where the fully open level came from that an effective time was measured by.</summary>
public enum OpenLevelSource
{
    /// <summary>From the exposure's own plateau: it rests open.</summary>
    OwnPlateau,

    /// <summary>From the reference exposure of the same recording.</summary>
    Reference,

    /// <summary>From another recording with the same lamp and gain.</summary>
    Carried,
}

/// <summary>The blades opening again after they had closed.</summary>
/// <param name="DelaySeconds">From complete closing to the beginning of the bounce, in seconds, 0 or more.</param>
/// <param name="Level">Its height over the exposure's own level, 0 to 1.</param>
/// <param name="DurationSeconds">How long it stays above half its own height, in seconds, above 0.</param>
/// <param name="EffectiveSeconds">The light it let through as time at the exposure's own level, ∫E dt / level, in seconds, above 0.</param>
public sealed record Bounce(double DelaySeconds, double Level, double DurationSeconds, double EffectiveSeconds);

/// <summary>
/// Where an exposure crosses its levels, in seconds from the recording's beginning, between samples. Levels are shares of the exposure's own
/// plateau or, where it never rests open, of its peak (mid-reference and 10/90 % levels as in IEEE 181).
/// </summary>
/// <param name="FirstOpeningSeconds">Where it leaves the closed level.</param>
/// <param name="Opening10Seconds">10 % upwards.</param>
/// <param name="Opening50Seconds">50 % upwards.</param>
/// <param name="Opening90Seconds">90 % upwards.</param>
/// <param name="Closing90Seconds">90 % downwards.</param>
/// <param name="Closing50Seconds">50 % downwards.</param>
/// <param name="Closing10Seconds">10 % downwards.</param>
/// <param name="CompleteClosingSeconds">Where it is back at the closed level, bounces not counted.</param>
public sealed record Crossings(
    double FirstOpeningSeconds, double Opening10Seconds, double Opening50Seconds, double Opening90Seconds,
    double Closing90Seconds, double Closing50Seconds, double Closing10Seconds, double CompleteClosingSeconds);

/// <summary>All figures of one exposure at one point of the frame.</summary>
public sealed record ExposureFigures
{
    /// <summary>Its number in the recording, counted from 1 among all that were found, refused ones included.</summary>
    public required int Number { get; init; }

    /// <summary>The moment of first opening, in seconds from the recording's beginning.</summary>
    public double StartSeconds => Crossings.FirstOpeningSeconds;

    /// <summary>Where it crosses its levels.</summary>
    public required Crossings Crossings { get; init; }

    /// <summary>Time between the 50 % crossings of its own level, in seconds, above 0 (pulse duration, IEEE 194-1977, 2.2.2).</summary>
    public double Width50Seconds => Crossings.Closing50Seconds - Crossings.Opening50Seconds;

    /// <summary>From first opening to complete closing, in seconds, above 0; bounces not counted.</summary>
    public double TotalSeconds => Crossings.CompleteClosingSeconds - Crossings.FirstOpeningSeconds;

    /// <summary>Opening, 10 to 90 %, in seconds, above 0.</summary>
    public double OpeningSeconds => Crossings.Opening90Seconds - Crossings.Opening10Seconds;

    /// <summary>Closing, 90 to 10 %, in seconds, above 0: a healthy shutter snaps, a lazy one takes its time.</summary>
    public double ClosingSeconds => Crossings.Closing10Seconds - Crossings.Closing90Seconds;

    /// <summary>How long it rests fully open, between the end of opening and the beginning of closing, in seconds; 0 where it never rests.</summary>
    public required double DwellSeconds { get; init; }

    /// <summary>
    /// Effective time t_e = ∫E dt / E_open in seconds (DIN 19016; Great Soviet Encyclopedia, "Exposure time"), light of bounces included, since
    /// the film gets it. Null where the shutter never rests open and no reference was given: then only the 50 % width stands.
    /// </summary>
    public required double? EffectiveSeconds { get; init; }

    /// <summary>Where E_open came from; null with <see cref="EffectiveSeconds"/>.</summary>
    public required OpenLevelSource? EffectiveBy { get; init; }

    /// <summary>Efficiency t_e / total, 0 to 1, of the main opening alone, bounces left out of both; null with <see cref="EffectiveSeconds"/>.</summary>
    public required double? Efficiency { get; init; }

    /// <summary>Its own plateau or peak above the closed level, in the recording's unit, without its sign.</summary>
    public required OpenLevel Level { get; init; }

    /// <summary>One standard uncertainty of <see cref="Width50Seconds"/> from noise and sampling alone, in seconds.</summary>
    public required double Width50StandardUncertaintySeconds { get; init; }

    /// <summary>Bounces after closing, in order; empty for a clean closing.</summary>
    public required IReadOnlyList<Bounce> Bounces { get; init; }

    /// <summary>What a person should know about it, each at most once.</summary>
    public required IReadOnlyList<ExposureRemark> Flags { get; init; }

    /// <summary>The corrected signal around it, to be drawn.</summary>
    public required SignalWindow Window { get; init; }

    /// <summary>
    /// What the instrument adds to a speed's uncertainty: one sample as resolution, and ±√3 standard uncertainties of this width as trigger term
    /// (so that the term itself is one standard uncertainty, JCGM 100:2008, 4.3.7).
    /// </summary>
    public TimingInstrument Instrument => new(Window.StepSeconds, Width50StandardUncertaintySeconds * Math.Sqrt(3));
}

/// <summary>
/// A stretch of the signal as the analysis sees it: polarity turned, offset, hum and droop taken out, scaled so that 0 is closed and 1 is the
/// exposure's own level.
/// </summary>
/// <param name="StartSeconds">Time of the first value, in seconds from the recording's beginning.</param>
/// <param name="StepSeconds">From one value to the next, in seconds: one sample.</param>
/// <param name="Values">The values, 0 closed, 1 the exposure's own level.</param>
/// <param name="OpenLevel">The fully open level on the same scale: 1 where the exposure rests open; null where it is not known.</param>
public sealed record SignalWindow(double StartSeconds, double StepSeconds, IReadOnlyList<float> Values, double? OpenLevel);

/// <summary>An exposure that was found but has no figures.</summary>
/// <param name="Number">Its number in the recording, counted from 1 among all that were found.</param>
/// <param name="AtSeconds">About where it begins, in seconds from the recording's beginning.</param>
/// <param name="Reason">Why it has no figures; never <see cref="Outcome.Ok"/>.</param>
public sealed record RefusedExposure(int Number, double AtSeconds, Outcome Reason);
