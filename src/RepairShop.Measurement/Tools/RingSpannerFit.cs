namespace RepairShop.Measurement.Tools;

/// <summary>
/// Whether a ring spanner goes where it must, clearance by clearance, and what to turn, bore or file by how much. Plain geometry: half the difference of two
/// diameters is the room on one side.
/// </summary>
public sealed record RingSpannerFit
{
    private const double Arithmetic = 1e-9;

    /// <summary>Holds a spanner against a mount.</summary>
    /// <param name="spanner">The spanner as it is, mm.</param>
    /// <param name="mount">The place it must work in, mm.</param>
    /// <param name="allowance">The room wanted; null for common practice.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure that can't be: zero, negative, NaN, infinite, or a bore wider than the tube.</exception>
    public RingSpannerFit(RingSpanner spanner, SpannerMount mount, SpannerAllowance? allowance = null)
    {
        ArgumentNullException.ThrowIfNull(spanner);
        ArgumentNullException.ThrowIfNull(mount);
        spanner.Check();
        mount.Check();
        (Spanner, Mount, Allowance) = (spanner, mount, allowance ?? SpannerAllowance.CommonPractice);
        Corrected = spanner with
        {
            OuterDiameter = Math.Min(spanner.OuterDiameter, WidestOutside()),
            InnerDiameter = Math.Max(spanner.InnerDiameter, NarrowestBore() ?? 0),
        };
        Clearances = [.. All().OfType<Clearance>()];
    }

    /// <summary>The spanner as it is.</summary>
    public RingSpanner Spanner { get; }

    /// <summary>The place.</summary>
    public SpannerMount Mount { get; }

    /// <summary>The room wanted.</summary>
    public SpannerAllowance Allowance { get; }

    /// <summary>Every clearance the measures allow to judge.</summary>
    public IReadOnlyList<Clearance> Clearances { get; }

    /// <summary>The worst of them: fouls, then loose, then tight, then free.</summary>
    public ClearanceState Verdict => Clearances.Max(one => one.State);

    /// <summary>False when even a tube turned and bored as advised would be thinner than wanted: then another way in is needed.</summary>
    public bool CanBeMade => Corrected.Wall >= Allowance.ThinnestWall - Arithmetic;

    /// <summary>Outside and bore as they would be after the advice; the other measures as they are.</summary>
    private RingSpanner Corrected { get; }

    private double WidestOutside() =>
        Math.Min(Mount.RecessDiameter, Mount.GateWidth ?? double.PositiveInfinity) - 2 * Allowance.Side;

    private double? NarrowestBore() => Mount.RearGroupDiameter + 2 * Allowance.Side;

    private IEnumerable<Clearance?> All()
    {
        yield return Room(ClearancePlace.Recess, (Mount.RecessDiameter - Spanner.OuterDiameter) / 2, Allowance.Side,
            SpannerMeasure.OuterDiameter, -2, Spanner.OuterDiameter);
        yield return Room(ClearancePlace.RearGroup, (Spanner.InnerDiameter - Mount.RearGroupDiameter) / 2, Allowance.Side,
            SpannerMeasure.InnerDiameter, 2, Spanner.InnerDiameter);
        yield return Room(ClearancePlace.Reach, Spanner.Depth - Mount.RecessDepth, Allowance.Length, SpannerMeasure.Depth, 1, Spanner.Depth);
        yield return Room(ClearancePlace.OverRearGroup, Spanner.Depth - Mount.RearGroupHeight, Allowance.Length, SpannerMeasure.Depth, 1, Spanner.Depth);
        yield return Circles();
        yield return Pin(ClearancePlace.PinWidth, Mount.NotchWidth, Spanner.PinWidth, SpannerMeasure.PinWidth);
        yield return Pin(ClearancePlace.PinHeight, Mount.NotchDepth, Spanner.PinHeight, SpannerMeasure.PinHeight);
        yield return Room(ClearancePlace.GateLongSide, (Mount.GateWidth - Spanner.OuterDiameter) / 2, Allowance.Side,
            SpannerMeasure.OuterDiameter, -2, Spanner.OuterDiameter);
        yield return Room(ClearancePlace.GateShortSide, (Mount.GateHeight - Spanner.NarrowWidth) / 2, Allowance.Side,
            SpannerMeasure.CutAwayWidth, -2, Spanner.NarrowWidth);
        yield return PinsOnTube();
        yield return new Clearance(ClearancePlace.Wall, Spanner.Wall, Allowance.ThinnestWall,
            Spanner.Wall < Allowance.ThinnestWall - Arithmetic ? ClearanceState.Tight : ClearanceState.Free, null);
    }

    /// <param name="place">Where.</param>
    /// <param name="room">Room there is; null when it was not measured.</param>
    /// <param name="wanted">Room wanted.</param>
    /// <param name="measure">What would be changed.</param>
    /// <param name="change">By how much that measure changes for each millimetre of room missing.</param>
    /// <param name="now">The measure as it is.</param>
    private static Clearance? Room(ClearancePlace place, double? room, double wanted, SpannerMeasure measure, double change, double now)
    {
        if (room is not { } there) return null;
        if (there >= wanted - Arithmetic) return new(place, there, wanted, ClearanceState.Free, null);
        var by = change * (wanted - there);
        return new(place, there, wanted, there < -Arithmetic ? ClearanceState.Fouls : ClearanceState.Tight, new(measure, by, now + by));
    }

    /// <summary>The pins meet the notches when both circles agree within the allowance; beyond half a notch's width more they miss them.</summary>
    private Clearance Circles()
    {
        var room = Allowance.PinCircle - Math.Abs(Spanner.PinCircle - Mount.NotchCircle) / 2;
        if (room >= -Arithmetic) return new(ClearancePlace.PinCircle, room, 0, ClearanceState.Free, null);
        var state = -room > Mount.NotchWidth / 2 ? ClearanceState.Fouls : ClearanceState.Tight;
        return new(ClearancePlace.PinCircle, room, 0, state, new(SpannerMeasure.PinCircle, Mount.NotchCircle - Spanner.PinCircle, Mount.NotchCircle));
    }

    private Clearance Pin(ClearancePlace place, double notch, double pin, SpannerMeasure measure)
    {
        var room = notch - pin;
        if (room <= notch * Allowance.LoosestPin + Arithmetic) return Room(place, room, Allowance.Pin, measure, -1, pin)!;
        var by = room - Allowance.Pin;
        return new(place, room, Allowance.Pin, ClearanceState.Loose, new(measure, by, pin + by));
    }

    /// <summary>
    /// Pins must stand on the tube: inside its wall, and on what the cut-away sides leave. The room is what the outermost corner of a pin keeps from
    /// the edge across; pins round the narrow way are cut off with it.
    /// </summary>
    private Clearance? PinsOnTube()
    {
        var inWall = Math.Min(Spanner.OuterDiameter - Spanner.PinCircle, Spanner.PinCircle - Spanner.InnerDiameter) / 2;
        var across = Enumerable.Range(0, Spanner.Pins).Max(pin =>
        {
            var angle = 2 * Math.PI * pin / Spanner.Pins;
            return Spanner.PinCircle / 2 * Math.Abs(Math.Sin(angle)) + Spanner.PinWidth / 2 * Math.Abs(Math.Cos(angle));
        });
        var room = Spanner.CutAwayWidth is { } width ? Math.Min(inWall, width / 2 - across) : inWall;
        return new(ClearancePlace.PinsOnTube, room, 0, room < -Arithmetic ? ClearanceState.Fouls : ClearanceState.Free, null);
    }
}
