namespace RepairShop.Measurement.Signals;

/// <summary>How the input turned out to be coupled.</summary>
/// <param name="Kind">AC or DC; <see cref="InputCoupling.Auto"/> where nothing in the recording tells.</param>
/// <param name="TimeConstantSeconds">τ of the RC high-pass, in seconds, above 0; null for DC or where nothing tells.</param>
/// <param name="StandardUncertaintySeconds">One standard uncertainty of τ, in seconds; null with τ.</param>
public sealed record CouplingEstimate(InputCoupling Kind, double? TimeConstantSeconds, double? StandardUncertaintySeconds)
{
    /// <summary>Corner frequency 1/(2πτ) in hertz (Boylestad, R-C response); null with τ.</summary>
    public double? CornerHz => TimeConstantSeconds is { } tau ? 1 / (2 * Math.PI * tau) : null;
}

/// <summary>What one light channel says.</summary>
/// <param name="Channel">Its place in the recording, counted from 0.</param>
/// <param name="Role">Where its sensor sits.</param>
/// <param name="Outcome">Whether it gave figures, or why not.</param>
/// <param name="Coupling">How its input is coupled.</param>
/// <param name="LightDrivesUp">Whether light drives the signal up; null where nothing tells.</param>
/// <param name="OpenLevel">The fully open level effective times were measured by, or that other recordings may carry; null where none rests open.</param>
/// <param name="Exposures">Exposures with figures, in order of time.</param>
/// <param name="Refused">Exposures found but without figures, in order of time.</param>
public sealed record LightChannel(
    int Channel, ChannelRole Role, Outcome Outcome, CouplingEstimate Coupling, bool? LightDrivesUp, OpenLevel? OpenLevel,
    IReadOnlyList<ExposureFigures> Exposures, IReadOnlyList<RefusedExposure> Refused);

/// <summary>Everything a recording says.</summary>
public sealed record AnalysisResult
{
    /// <summary>The version of the analysis that made it; see <see cref="RecordingAnalysis.Version"/>.</summary>
    public string AnalysisVersion { get; init; } = RecordingAnalysis.Version;

    /// <summary>Ok when the main light channel gave at least one exposure, otherwise the reason why not.</summary>
    public required Outcome Outcome { get; init; }

    /// <summary>Samples a second.</summary>
    public required double SampleRateHz { get; init; }

    /// <summary>How long the recording is, in seconds.</summary>
    public required double DurationSeconds { get; init; }

    /// <summary>Every light channel, in the recording's order; the one at the centre is <see cref="Main"/>.</summary>
    public required IReadOnlyList<LightChannel> Lights { get; init; }

    /// <summary>What a person should know, in order of time within each channel.</summary>
    public required IReadOnlyList<SignalWarning> Warnings { get; init; }

    /// <summary>Focal-plane figures, one a release that at least two light channels saw; empty otherwise.</summary>
    public IReadOnlyList<FocalPlaneFigures> FocalPlane { get; init; } = [];

    /// <summary>Flash contact figures, one a release; empty without a contact channel.</summary>
    public IReadOnlyList<FlashFigures> Flash { get; init; } = [];

    /// <summary>The channel at the centre of the frame or, without one, the first light channel; null where the rig names none.</summary>
    public LightChannel? Main => Lights.FirstOrDefault(light => light.Role == ChannelRole.Light) ?? (Lights.Count > 0 ? Lights[0] : null);

    /// <summary>How the main channel's input is coupled.</summary>
    public CouplingEstimate Coupling => Main?.Coupling ?? new(InputCoupling.Auto, null, null);

    /// <summary>The main channel's exposures with figures, in order of time.</summary>
    public IReadOnlyList<ExposureFigures> Exposures => Main?.Exposures ?? [];

    /// <summary>The main channel's exposures without figures, in order of time.</summary>
    public IReadOnlyList<RefusedExposure> Refused => Main?.Refused ?? [];
}
