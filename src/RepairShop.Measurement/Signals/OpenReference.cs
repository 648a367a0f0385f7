using RepairShop.Measurement.Signals.Fitting;

namespace RepairShop.Measurement.Signals;

/// <summary>The fully open level a channel's effective times are measured by.</summary>
/// <param name="Level">The level; null where none was given.</param>
/// <param name="Source">Where it came from.</param>
internal sealed record OpenReference(OpenLevel? Level, OpenLevelSource Source)
{
    /// <summary>A plateau shorter than this share of the width is no rest: its height may be short of fully open.</summary>
    private const double LeastRest = 0.08;

    /// <summary>A level this far below the reference is not fully open.</summary>
    private const double OpenShare = 0.97;

    /// <summary>The lamp and the droop's correction are steady to about this share between two exposures (common practice).</summary>
    private const double Steadiness = 0.004;

    /// <summary>A fit that has to leave so much more of the samples, in units of the noise's variance, to reach the reference, does not reach it: five standard deviations.</summary>
    private const double MostStrain = 25;

    public static OpenReference Of(Rig rig, int channel, IReadOnlyList<FoundExposure> found, List<SignalWarning> warnings)
    {
        if (rig.ReferenceExposure is not { } number) return new(rig.CarriedOpenLevel, OpenLevelSource.Carried);
        if (number <= found.Count && found[number - 1] is { Fault: null } one && RestsOpen(one.Fit, null))
            return new(new(one.Fit.Level, one.Fit.LevelUncertainty), OpenLevelSource.Reference);
        warnings.Add(new ReferenceMissing(channel, number));
        return new(null, OpenLevelSource.Reference);
    }

    public static bool RestsOpen(FittedExposure fit, OpenLevel? reference) =>
        reference is { } level && !fit.IsLong
            ? fit.Level > OpenShare * level.Value - 2 * fit.LevelUncertainty
            : fit.Dwell > LeastRest * fit.Width;

    /// <summary>
    /// Whether an exposure fitted with its level held still follows its samples. Blades that turn back before they are fully open leave the level so
    /// unsure that it may seem to reach the reference; held to it, they would be bent into another shape.
    /// </summary>
    public static bool Bears(FittedExposure free, FittedExposure held) => held.Cost - free.Cost < MostStrain * free.Overconfidence * free.Overconfidence;

    /// <summary>The level to hold a short exposure to, with how firmly; null where it is long or does not seem to reach it.</summary>
    public OpenLevel? Holds(FittedExposure fit)
    {
        if (Level is null || fit.IsLong || fit.Dwell <= 0) return null;
        var spread = Math.Sqrt(Level.StandardUncertainty * Level.StandardUncertainty + Steadiness * Steadiness * Level.Value * Level.Value);
        var together = Math.Sqrt(spread * spread + fit.LevelUncertainty * fit.LevelUncertainty);
        return Math.Abs(fit.Level - Level.Value) < 3 * together ? new(Level.Value, spread / fit.Overconfidence) : null;
    }
}
