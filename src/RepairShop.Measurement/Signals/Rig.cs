namespace RepairShop.Measurement.Signals;

/// <summary>What a channel of a recording shows.</summary>
public enum ChannelRole
{
    /// <summary>Nothing to be looked at.</summary>
    Unused,

    /// <summary>Light at the centre of the frame; the one channel of a between-lens shutter.</summary>
    Light,

    /// <summary>Light near the edge of the frame that the first curtain uncovers first.</summary>
    LightFirstEdge,

    /// <summary>Light near the edge of the frame that is uncovered last.</summary>
    LightLastEdge,

    /// <summary>The flash contact, through a resistor and a battery: one level open, another closed.</summary>
    FlashContact,
}

/// <summary>How the input passes slow changes.</summary>
public enum InputCoupling
{
    /// <summary>Not known: found out from the recording.</summary>
    Auto,

    /// <summary>Through a capacitor, as every sound input: a steady light droops away (RC high-pass, e^(−t/τ), Boylestad, R-C response).</summary>
    Ac,

    /// <summary>Straight through: a steady light stays.</summary>
    Dc,
}

/// <summary>Which flash contact the camera is set to.</summary>
public enum FlashContactKind
{
    /// <summary>Nobody has said: times are given, nothing is judged.</summary>
    NotStated,

    /// <summary>X: closes when the shutter is fully open.</summary>
    X,

    /// <summary>M: closes early, so that a class M bulb peaks (about 20 ms) with the shutter open.</summary>
    M,
}

/// <summary>The signal's height when the shutter is fully open, to be carried to other recordings made with the same lamp and gain.</summary>
/// <param name="Value">Height above the closed level in the recording's unit, without its sign, above 0.</param>
/// <param name="StandardUncertainty">One standard uncertainty of it, in the same unit, 0 or more.</param>
public sealed record OpenLevel(double Value, double StandardUncertainty);

/// <summary>How the recording was made: what each channel is, how the input is coupled, and what is known of the fully open level.</summary>
public sealed record Rig
{
    /// <summary>GOST 19821-83, p. 23: the measuring points lie about 45 % of the frame's width from its centre.</summary>
    public const double EdgeShareOfFrame = 0.45;

    /// <summary>One light sensor, coupling unknown, no reference: the plainest rig.</summary>
    public static Rig OneSensor { get; } = new();

    /// <summary>What each channel is, in the recording's order; channels beyond the list are not looked at.</summary>
    public IReadOnlyList<ChannelRole> Roles { get; init; } = [ChannelRole.Light];

    /// <summary>How the input is coupled; <see cref="InputCoupling.Auto"/> finds out.</summary>
    public InputCoupling Coupling { get; init; } = InputCoupling.Auto;

    /// <summary>
    /// Which exposure of this recording shows the fully open level, counted from 1 among all that were found, refused ones included; null for none.
    /// </summary>
    public int? ReferenceExposure { get; init; }

    /// <summary>The fully open level from another recording of the same lamp and gain; <see cref="ReferenceExposure"/> goes before it.</summary>
    public OpenLevel? CarriedOpenLevel { get; init; }

    /// <summary>Width of the frame along the curtains' travel, in millimetres, above 0.</summary>
    public double FrameWidthMm { get; init; } = 36;

    /// <summary>Where the first-edge sensor sits, in millimetres from the centre, below 0; null for 45 % of the frame's width.</summary>
    public double? FirstEdgePositionMm { get; init; }

    /// <summary>Where the last-edge sensor sits, in millimetres from the centre, above 0; null for 45 % of the frame's width.</summary>
    public double? LastEdgePositionMm { get; init; }

    /// <summary>Which flash contact is connected.</summary>
    public FlashContactKind Flash { get; init; }

    /// <summary>Position of a sensor along the curtains' travel, in millimetres from the frame's centre, plus towards the edge uncovered last.</summary>
    /// <param name="role">One of the light roles.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not a light role.</exception>
    public double PositionMm(ChannelRole role) => role switch
    {
        ChannelRole.Light => 0,
        ChannelRole.LightFirstEdge => FirstEdgePositionMm ?? -EdgeShareOfFrame * FrameWidthMm,
        ChannelRole.LightLastEdge => LastEdgePositionMm ?? EdgeShareOfFrame * FrameWidthMm,
        _ => throw new ArgumentOutOfRangeException(nameof(role), role, "Only light sensors have a position."),
    };
}
