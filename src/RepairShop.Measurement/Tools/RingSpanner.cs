namespace RepairShop.Measurement.Tools;

/// <summary>
/// A ring spanner: a tube whose pins reach into the notches of a retaining ring, past the rear group that stands inside it. Millimetres.
/// Two opposite sides may be cut away, so that a tube wider than the film gate is high still passes it.
/// </summary>
/// <param name="OuterDiameter">Of the tube, greater than 0.</param>
/// <param name="InnerDiameter">Of the bore, greater than 0, below the outer diameter.</param>
/// <param name="Depth">From the shoulder the pins stand on to where the bore and the free outside end, greater than 0.</param>
/// <param name="PinCircle">Diameter of the circle through the middles of the pins, greater than 0.</param>
/// <param name="PinWidth">Of a pin along that circle, greater than 0.</param>
/// <param name="PinHeight">Of a pin above the shoulder, greater than 0.</param>
/// <param name="CutAwayWidth">Width of the tube across the two sides cut away, greater than 0, at most the outer diameter; null when it is left round.</param>
/// <param name="Pins">How many, evenly spaced, the first where the tube is widest; 1 or more.</param>
public sealed record RingSpanner(
    double OuterDiameter, double InnerDiameter, double Depth, double PinCircle, double PinWidth, double PinHeight, double? CutAwayWidth = null, int Pins = 2)
{
    /// <summary>Thickness of the tube, mm.</summary>
    public double Wall => (OuterDiameter - InnerDiameter) / 2;

    /// <summary>The narrow way across: the cut-away width, or the diameter of a round tube, mm.</summary>
    public double NarrowWidth => CutAwayWidth ?? OuterDiameter;

    internal void Check()
    {
        Guard.Positive(OuterDiameter);
        Guard.Positive(InnerDiameter);
        if (InnerDiameter >= OuterDiameter) throw new ArgumentOutOfRangeException(nameof(InnerDiameter), InnerDiameter, "A tube's bore is narrower than its outside.");
        Guard.Positive(Depth);
        Guard.Positive(PinCircle);
        Guard.Positive(PinWidth);
        Guard.Positive(PinHeight);
        if (CutAwayWidth is { } width && Guard.Positive(width) > OuterDiameter)
            throw new ArgumentOutOfRangeException(nameof(CutAwayWidth), width, "What is left across the cut-away sides is at most the outer diameter.");
        ArgumentOutOfRangeException.ThrowIfLessThan(Pins, 1);
    }
}

/// <summary>The place a ring spanner has to work in, seen from the side it comes from. Millimetres; a measure nobody took is null and judges nothing.</summary>
/// <param name="RecessDiameter">Of the hole in which the ring lies, greater than 0.</param>
/// <param name="RecessDepth">From the face the spanner's body would meet down to the ring's face, 0 or more.</param>
/// <param name="RearGroupDiameter">Of the rear group that stays in place inside the ring, greater than 0; null when it is out.</param>
/// <param name="RearGroupHeight">How far that group stands above the ring's face, either sign; null when it is out.</param>
/// <param name="NotchCircle">Diameter of the circle through the middles of the notches, greater than 0.</param>
/// <param name="NotchWidth">Of a notch along that circle, greater than 0.</param>
/// <param name="NotchDepth">Down from the ring's face, greater than 0.</param>
/// <param name="GateWidth">Long side of the film gate it must pass, greater than 0; null when it comes another way.</param>
/// <param name="GateHeight">Short side of the film gate, greater than 0; null when it comes another way.</param>
public sealed record SpannerMount(
    double RecessDiameter, double RecessDepth, double? RearGroupDiameter, double? RearGroupHeight,
    double NotchCircle, double NotchWidth, double NotchDepth, double? GateWidth = null, double? GateHeight = null)
{
    internal void Check()
    {
        Guard.Positive(RecessDiameter);
        Guard.NotNegative(RecessDepth);
        if (RearGroupDiameter is { } diameter) Guard.Positive(diameter, nameof(RearGroupDiameter));
        if (RearGroupHeight is { } height) Guard.Finite(height, nameof(RearGroupHeight));
        Guard.Positive(NotchCircle);
        Guard.Positive(NotchWidth);
        Guard.Positive(NotchDepth);
        if (GateWidth is { } width) Guard.Positive(width, nameof(GateWidth));
        if (GateHeight is { } tall) Guard.Positive(tall, nameof(GateHeight));
    }
}

/// <summary>The least room each place needs, millimetres; common practice for hand tools, no source. Thin walls bend, loose pins burr the notches.</summary>
/// <param name="Side">Between two sides, measured on one of them.</param>
/// <param name="Length">Beyond a depth or a height.</param>
/// <param name="Pin">Between a pin and its notch, across and in depth.</param>
/// <param name="PinCircle">By how much the two circles' radii may differ.</param>
/// <param name="LoosestPin">From here on a pin counts as loose in its notch, as a share of the notch.</param>
/// <param name="ThinnestWall">Of the tube.</param>
public sealed record SpannerAllowance(
    double Side = 0.1, double Length = 0.5, double Pin = 0.05, double PinCircle = 0.15, double LoosestPin = 0.4, double ThinnestWall = 0.8)
{
    /// <summary>The figures above.</summary>
    public static SpannerAllowance CommonPractice { get; } = new();
}
