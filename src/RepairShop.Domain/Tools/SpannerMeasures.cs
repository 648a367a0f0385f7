using RepairShop.Domain.Results;
using RepairShop.Measurement.Tools;

namespace RepairShop.Domain.Tools;

/// <summary>What has been measured of a ring spanner so far, in millimetres.</summary>
public sealed record SpannerMeasures
{
    public double? OuterDiameter { get; init; }

    public double? InnerDiameter { get; init; }

    public double? Depth { get; init; }

    public double? PinCircle { get; init; }

    public double? PinWidth { get; init; }

    public double? PinHeight { get; init; }

    /// <summary>Null when the tube is round.</summary>
    public double? CutAwayWidth { get; init; }

    public int? Pins { get; init; }

    public static SpannerMeasures Of(RingSpanner spanner)
    {
        ArgumentNullException.ThrowIfNull(spanner);
        return new()
        {
            OuterDiameter = spanner.OuterDiameter,
            InnerDiameter = spanner.InnerDiameter,
            Depth = spanner.Depth,
            PinCircle = spanner.PinCircle,
            PinWidth = spanner.PinWidth,
            PinHeight = spanner.PinHeight,
            CutAwayWidth = spanner.CutAwayWidth,
            Pins = spanner.Pins,
        };
    }

    /// <summary>Null when what is there can stand in the register, whole or not.</summary>
    public Failure? WhyNot()
    {
        if (MeasureRules.WhyNot("Spanner", Lengths) is { } refused)
            return refused;
        if (OuterDiameter <= InnerDiameter)
            return new BoreWiderThanTube();
        if (CutAwayWidth > OuterDiameter)
            return new CutAwayWiderThanTube();
        return Pins is < 1 or > MeasureRules.MostPins ? new PinsOutOfRange(Pins.Value) : null;
    }

    /// <summary>The spanner, or the first measure that is missing or impossible.</summary>
    public Result<RingSpanner> Whole()
    {
        if (WhyNot() is { } refused)
            return refused;
        if (Lengths.FirstOrDefault(one => one.Value is null && one.Name != nameof(CutAwayWidth)) is { Name: not null } missing)
            return new MeasureMissing($"Spanner.{missing.Name}", missing.Words);
        return new RingSpanner(
            OuterDiameter!.Value, InnerDiameter!.Value, Depth!.Value, PinCircle!.Value, PinWidth!.Value, PinHeight!.Value, CutAwayWidth, Pins ?? 2);
    }

    private IReadOnlyList<MeasureLine> Lengths =>
    [
        new(nameof(OuterDiameter), "Outer diameter", OuterDiameter), new(nameof(InnerDiameter), "Inner diameter", InnerDiameter),
        new(nameof(Depth), "Depth", Depth), new(nameof(PinCircle), "Pin circle", PinCircle), new(nameof(PinWidth), "Pin width", PinWidth),
        new(nameof(PinHeight), "Pin height", PinHeight), new(nameof(CutAwayWidth), "Width across the cut-away sides", CutAwayWidth),
    ];
}

/// <summary>What has been measured of a mount so far, in millimetres.</summary>
public sealed record MountMeasures
{
    public double? RecessDiameter { get; init; }

    public double? RecessDepth { get; init; }

    /// <summary>Null when the group comes out first.</summary>
    public double? RearGroupDiameter { get; init; }

    public double? RearGroupHeight { get; init; }

    public double? NotchCircle { get; init; }

    public double? NotchWidth { get; init; }

    public double? NotchDepth { get; init; }

    /// <summary>Null when the spanner need not pass the film gate.</summary>
    public double? GateWidth { get; init; }

    public double? GateHeight { get; init; }

    /// <summary>Null when what is there can be kept, whole or not.</summary>
    public Failure? WhyNot()
    {
        if (MeasureRules.WhyNot("Mount", Lengths) is { } refused)
            return refused;
        if (RecessDepth is { } depth && !MeasureRules.IsLength(depth, fromZero: true))
            return new MeasureOutOfRange("Mount.RecessDepth", "Recess depth");
        return RearGroupHeight is { } height && !MeasureRules.IsLength(Math.Abs(height), fromZero: true)
            ? new MeasureOutOfRange("Mount.RearGroupHeight", "Rear group height")
            : GateWidth < GateHeight ? new GateSidesSwapped() : null;
    }

    /// <summary>The mount, or the first measure that is missing or impossible.</summary>
    public Result<SpannerMount> Whole()
    {
        if (WhyNot() is { } refused)
            return refused;
        if (RecessDepth is null)
            return new MeasureMissing("Mount.RecessDepth", "Recess depth");
        if (RearGroupDiameter is not null && RearGroupHeight is null)
            return new MeasureMissing("Mount.RearGroupHeight", "Rear group height");
        string[] needless = [nameof(RearGroupDiameter), nameof(GateWidth), nameof(GateHeight)];
        if (Lengths.FirstOrDefault(one => one.Value is null && !needless.Contains(one.Name)) is { Name: not null } missing)
            return new MeasureMissing($"Mount.{missing.Name}", missing.Words);
        return new SpannerMount(
            RecessDiameter!.Value, RecessDepth.Value, RearGroupDiameter, RearGroupHeight, NotchCircle!.Value, NotchWidth!.Value, NotchDepth!.Value,
            GateWidth, GateHeight);
    }

    private IReadOnlyList<MeasureLine> Lengths =>
    [
        new(nameof(RecessDiameter), "Recess diameter", RecessDiameter), new(nameof(RearGroupDiameter), "Rear group diameter", RearGroupDiameter),
        new(nameof(NotchCircle), "Notch circle", NotchCircle), new(nameof(NotchWidth), "Notch width", NotchWidth),
        new(nameof(NotchDepth), "Notch depth", NotchDepth), new(nameof(GateWidth), "Film gate, long side", GateWidth),
        new(nameof(GateHeight), "Film gate, short side", GateHeight),
    ];
}

internal readonly record struct MeasureLine(string Name, string Words, double? Value);

internal static class MeasureRules
{
    public const double LongestMillimetres = 1000;

    public const int MostPins = 12;

    public static bool IsLength(double millimetres, bool fromZero) =>
        double.IsFinite(millimetres) && millimetres <= LongestMillimetres && (fromZero ? millimetres >= 0 : millimetres > 0);

    public static Failure? WhyNot(string part, IReadOnlyList<MeasureLine> lengths) =>
        lengths.FirstOrDefault(one => one.Value is { } value && !IsLength(value, fromZero: false)) is { Name: not null } wrong
            ? new MeasureOutOfRange($"{part}.{wrong.Name}", wrong.Words)
            : null;
}
