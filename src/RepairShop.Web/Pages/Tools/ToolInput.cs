using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Tools;
using RepairShop.Measurement.Tools;
using RepairShop.Services.Tools;

namespace RepairShop.Web.Pages.Tools;

/// <summary>The form of one tool, new or old.</summary>
public sealed class ToolInput : ToolRoomInput
{
    [StringLength(200)]
    public string? Name { get; set; }

    public ToolKind Kind { get; set; }

    [StringLength(1000)]
    public string? Fits { get; set; }

    [StringLength(200)]
    public string? Place { get; set; }

    [StringLength(4000)]
    public string? Notes { get; set; }

    [StringLength(1000)]
    public string? OtherMeasures { get; set; }

    public LengthUnit Unit { get; set; }

    public SpannerInput Spanner { get; set; } = new();

    public ToolTyped Typed() => new(Name ?? "", Kind, Fits ?? "", Place ?? "", Notes ?? "", Unit, Spanner.Typed(Unit), OtherMeasures ?? "", Version);

    public static ToolInput Of(ToolTyped typed) => new()
    {
        Name = typed.Name,
        Kind = typed.Kind,
        Fits = typed.Fits,
        Place = typed.Place,
        Notes = typed.Notes,
        OtherMeasures = typed.OtherMeasures,
        Unit = typed.Unit,
        Spanner = SpannerInput.Of(typed.Spanner, typed.Unit),
        Version = typed.Version,
    };
}

/// <summary>Measures of a ring spanner in the unit of the form around it.</summary>
public sealed class SpannerInput
{
    public double? OuterDiameter { get; set; }

    public double? InnerDiameter { get; set; }

    public double? Depth { get; set; }

    public double? PinCircle { get; set; }

    public double? PinWidth { get; set; }

    public double? PinHeight { get; set; }

    public double? CutAwayWidth { get; set; }

    public int? Pins { get; set; }

    public SpannerMeasures Typed(LengthUnit unit) => new()
    {
        OuterDiameter = InMillimetres.Of(OuterDiameter, unit),
        InnerDiameter = InMillimetres.Of(InnerDiameter, unit),
        Depth = InMillimetres.Of(Depth, unit),
        PinCircle = InMillimetres.Of(PinCircle, unit),
        PinWidth = InMillimetres.Of(PinWidth, unit),
        PinHeight = InMillimetres.Of(PinHeight, unit),
        CutAwayWidth = InMillimetres.Of(CutAwayWidth, unit),
        Pins = Pins,
    };

    public static SpannerInput Of(SpannerMeasures measures, LengthUnit unit) => new()
    {
        OuterDiameter = InMillimetres.Back(measures.OuterDiameter, unit),
        InnerDiameter = InMillimetres.Back(measures.InnerDiameter, unit),
        Depth = InMillimetres.Back(measures.Depth, unit),
        PinCircle = InMillimetres.Back(measures.PinCircle, unit),
        PinWidth = InMillimetres.Back(measures.PinWidth, unit),
        PinHeight = InMillimetres.Back(measures.PinHeight, unit),
        CutAwayWidth = InMillimetres.Back(measures.CutAwayWidth, unit),
        Pins = measures.Pins,
    };
}

/// <summary>Typed lengths to millimetres and back, without the last digits arithmetic adds.</summary>
internal static class InMillimetres
{
    public static double? Of(double? typed, LengthUnit unit) => typed is { } value ? Math.Round(Length.ToMillimetres(value, unit), 9) : null;

    public static double? Back(double? millimetres, LengthUnit unit) => millimetres is { } value ? Math.Round(Length.FromMillimetres(value, unit), 7) : null;
}
