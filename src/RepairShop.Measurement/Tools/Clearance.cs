namespace RepairShop.Measurement.Tools;

/// <summary>Where a ring spanner may touch.</summary>
public enum ClearancePlace
{
    /// <summary>Outside of the tube in the recess.</summary>
    Recess,

    /// <summary>Bore over the rear group.</summary>
    RearGroup,

    /// <summary>Depth of the tube against the recess.</summary>
    Reach,

    /// <summary>Depth of the bore against the rear group's height.</summary>
    OverRearGroup,

    /// <summary>Circle of the pins against that of the notches.</summary>
    PinCircle,

    /// <summary>Width of a pin in its notch.</summary>
    PinWidth,

    /// <summary>Height of a pin in its notch.</summary>
    PinHeight,

    /// <summary>Outside of the tube along the gate's long side.</summary>
    GateLongSide,

    /// <summary>The narrow way of the tube along the gate's short side.</summary>
    GateShortSide,

    /// <summary>Pins on what the cut-away sides leave of the tube.</summary>
    PinsOnTube,

    /// <summary>Thickness of the tube.</summary>
    Wall,
}

/// <summary>How a clearance stands.</summary>
public enum ClearanceState
{
    /// <summary>As much room as wanted, or more.</summary>
    Free,

    /// <summary>Goes in, with less room than wanted.</summary>
    Tight,

    /// <summary>Too much play: the pin would slip and burr the notch.</summary>
    Loose,

    /// <summary>Does not go in.</summary>
    Fouls,
}

/// <summary>One clearance, millimetres.</summary>
/// <param name="Place">Where.</param>
/// <param name="Room">Room there is; minus is how much is too much. On one side where there are two.</param>
/// <param name="Wanted">The least room wanted.</param>
/// <param name="State">How it stands.</param>
/// <param name="Correction">What to change to have the room wanted; null when nothing.</param>
public sealed record Clearance(ClearancePlace Place, double Room, double Wanted, ClearanceState State, Correction? Correction);

/// <summary>What to change on the spanner.</summary>
/// <param name="Measure">Which of its measures.</param>
/// <param name="By">How much, mm: minus takes material off an outside or moves inwards; of a bore plus takes off.</param>
/// <param name="To">What the measure is then, mm.</param>
public sealed record Correction(SpannerMeasure Measure, double By, double To);

/// <summary>A measure of a ring spanner.</summary>
public enum SpannerMeasure
{
    /// <summary>Outer diameter.</summary>
    OuterDiameter,

    /// <summary>Inner diameter.</summary>
    InnerDiameter,

    /// <summary>Depth.</summary>
    Depth,

    /// <summary>Diameter of the circle of the pins.</summary>
    PinCircle,

    /// <summary>Width of a pin.</summary>
    PinWidth,

    /// <summary>Height of a pin.</summary>
    PinHeight,

    /// <summary>Width across the cut-away sides.</summary>
    CutAwayWidth,
}
