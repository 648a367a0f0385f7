namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>One exposure after fitting, in samples of its straight signal.</summary>
internal sealed record FittedExposure
{
    public required PulseModel Model { get; init; }

    /// <summary>Where it passes half its level upwards, the model's place set right by the samples there.</summary>
    public required double Opening50 { get; init; }

    /// <summary>The same downwards.</summary>
    public required double Closing50 { get; init; }

    /// <summary>Standard deviation of the width at 50 %, in samples.</summary>
    public required double WidthUncertainty { get; init; }

    /// <summary>Whether its level was held to a fully open one it reaches: it is then the best that is known of both.</summary>
    public bool IsHeld { get; init; }

    /// <summary>Standard deviation of the level as the fit has it, for noise that does not hang together.</summary>
    public required double FittedLevelUncertainty { get; init; }

    /// <summary>The same as the quiet parts show it; 0 where they don't tell.</summary>
    public double QuietLevelUncertainty { get; init; }

    /// <summary>Standard deviation of the level.</summary>
    public double LevelUncertainty => Math.Max(FittedLevelUncertainty, QuietLevelUncertainty);

    /// <summary>By how much the level is less sure than the fit, which takes every sample for a new witness, believes.</summary>
    public double Overconfidence => FittedLevelUncertainty > 0 ? LevelUncertainty / FittedLevelUncertainty : 1;

    /// <summary>What the fit leaves, in units of the noise's variance; 0 where the edges were fitted apart.</summary>
    public required double Cost { get; init; }

    /// <summary>Root mean square of what the fit leaves of block means around the edges.</summary>
    public required double Left { get; init; }

    /// <summary>Standard deviation of block means on the plateau, slope taken out; 0 without one.</summary>
    public required double PlateauUnrest { get; init; }

    /// <summary>Whether its edges were fitted apart, each with levels of its own.</summary>
    public required bool IsLong { get; init; }

    /// <summary>The closed level after it; over a long one the droop's correction may have moved it.</summary>
    public required double ClosedAfter { get; init; }

    public required IReadOnlyList<BounceFinder.Span> Bounces { get; init; }

    public double Level => Model[PulseModel.Height];

    public double Width => Closing50 - Opening50;

    public double Dwell => Math.Max(0, Model[PulseModel.T2] - Model[PulseModel.T1]);
}
