using RepairShop.Measurement.Signals;

namespace RepairShop.Domain.Recordings;

/// <summary>A rig as it is kept beside its recording.</summary>
public sealed record RigFacts
{
    public IReadOnlyList<ChannelRole> Roles { get; init; } = [ChannelRole.Light];

    public InputCoupling Coupling { get; init; } = InputCoupling.Auto;

    /// <summary>Exposure of this recording that shows the fully open level, counted from 1.</summary>
    public int? Reference { get; init; }

    /// <summary>Recording the fully open level was carried from; null for none.</summary>
    public Guid? CarriedFrom { get; init; }

    /// <summary>The level carried, in the recording's unit.</summary>
    public double? CarriedLevel { get; init; }

    public double? CarriedUncertainty { get; init; }

    public double FrameWidthMm { get; init; } = 36;

    public FlashContactKind Flash { get; init; }

    /// <summary>As the analysis takes it.</summary>
    public Rig ToRig() => new()
    {
        Roles = Roles,
        Coupling = Coupling,
        ReferenceExposure = Reference,
        CarriedOpenLevel = CarriedLevel is { } level ? new OpenLevel(level, CarriedUncertainty ?? 0) : null,
        FrameWidthMm = FrameWidthMm,
        Flash = Flash,
    };
}
