using System.Globalization;
using RepairShop.Measurement.Tools;

namespace RepairShop.Domain.Tools;

/// <summary>Tools, clearances and advice in the trade's words.</summary>
public static class ToolWords
{
    public static string Of(ToolKind kind) => kind switch
    {
        ToolKind.RingSpanner => "ring spanner",
        ToolKind.Driver => "driver",
        ToolKind.Puller => "puller or extractor",
        ToolKind.Jig => "jig",
        ToolKind.MeasuringTool => "measuring tool",
        ToolKind.Other => "other",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
    };

    public static string Of(ClearancePlace place) => place switch
    {
        ClearancePlace.Recess => "Tube in the recess, each side",
        ClearancePlace.RearGroup => "Bore over the rear group, each side",
        ClearancePlace.Reach => "Reach to the ring",
        ClearancePlace.OverRearGroup => "Depth over the rear group",
        ClearancePlace.PinCircle => "Pin circle on the notch circle",
        ClearancePlace.PinWidth => "Pin in its notch, across",
        ClearancePlace.PinHeight => "Pin in its notch, deep",
        ClearancePlace.GateLongSide => "Film gate, long side, each side",
        ClearancePlace.GateShortSide => "Film gate, short side, each side",
        ClearancePlace.PinsOnTube => "Pins on the tube",
        ClearancePlace.Wall => "Wall of the tube",
        _ => throw new ArgumentOutOfRangeException(nameof(place), place, null),
    };

    public static string Of(ClearanceState state) => state switch
    {
        ClearanceState.Free => "free",
        ClearanceState.Tight => "tight",
        ClearanceState.Loose => "loose",
        ClearanceState.Fouls => "fouls",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, null),
    };

    /// <summary>"Turn the outside down by 1.2 mm, to 31.8 mm."</summary>
    public static string Of(Correction advice, LengthUnit unit)
    {
        ArgumentNullException.ThrowIfNull(advice);
        var (by, to) = (Written(Math.Abs(advice.By), unit), Written(advice.To, unit));
        var more = advice.By > 0;
        return advice.Measure switch
        {
            SpannerMeasure.OuterDiameter => $"Turn the outside down by {by}, to {to}.",
            SpannerMeasure.InnerDiameter => $"Bore it out by {by}, to {to}.",
            SpannerMeasure.Depth => $"Make it {by} deeper: {to}.",
            SpannerMeasure.PinCircle => $"Set the pins on a circle {by} {(more ? "larger" : "smaller")}: {to}.",
            SpannerMeasure.PinWidth => more ? $"Make the pins {by} wider: {to}." : $"File the pins narrower by {by}, to {to}.",
            SpannerMeasure.PinHeight => more ? $"Make the pins {by} higher: {to}." : $"File the pins lower by {by}, to {to}.",
            SpannerMeasure.CutAwayWidth => $"Cut two sides away, {by} in all, to {to} across.",
            _ => throw new ArgumentOutOfRangeException(nameof(advice), advice.Measure, null),
        };
    }

    /// <summary>A length with its unit: hundredths of a millimetre, thousandths of an inch.</summary>
    public static string Written(double millimetres, LengthUnit unit) => $"{Figure(millimetres, unit)} {Sign(unit)}";

    /// <summary>A length without its unit, with a true minus.</summary>
    public static string Figure(double millimetres, LengthUnit unit)
    {
        var text = Math.Round(Length.FromMillimetres(millimetres, unit), unit == LengthUnit.Inch ? 4 : 3)
            .ToString(unit == LengthUnit.Inch ? "0.0000" : "0.00#", CultureInfo.CurrentCulture);
        return text.Replace('-', '−');
    }

    public static string Sign(LengthUnit unit) => unit == LengthUnit.Inch ? "in" : "mm";

    /// <summary>A ring spanner's measures in one line: "Ø 31.50 / 26.00, 12.00 deep, 2 pins 1.80 × 1.00 on 28.50 mm"; what was not measured is left out.</summary>
    public static string Of(SpannerMeasures spanner, LengthUnit unit)
    {
        ArgumentNullException.ThrowIfNull(spanner);
        string F(double? value) => value is { } length ? Figure(length, unit) : "?";
        var parts = new List<string>();
        if (spanner.OuterDiameter is not null || spanner.InnerDiameter is not null)
            parts.Add($"Ø {F(spanner.OuterDiameter)} / {F(spanner.InnerDiameter)}");
        if (spanner.Depth is not null)
            parts.Add($"{F(spanner.Depth)} deep");
        if (spanner.PinCircle is not null)
            parts.Add($"{spanner.Pins ?? 2} pins {F(spanner.PinWidth)} × {F(spanner.PinHeight)} on {F(spanner.PinCircle)}");
        if (spanner.CutAwayWidth is not null)
            parts.Add($"cut away to {F(spanner.CutAwayWidth)}");
        return parts.Count == 0 ? "" : $"{string.Join(", ", parts)} {Sign(unit)}";
    }
}
