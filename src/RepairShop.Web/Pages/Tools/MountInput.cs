using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Tools;
using RepairShop.Measurement.Tools;
using RepairShop.Services.Tools;

namespace RepairShop.Web.Pages.Tools;

/// <summary>The form of one mount, new or old.</summary>
public sealed class MountInput : ToolRoomInput
{
    [StringLength(200)]
    public string? Camera { get; set; }

    [StringLength(200)]
    public string? Name { get; set; }

    [StringLength(4000)]
    public string? Notes { get; set; }

    public LengthUnit Unit { get; set; }

    public MountFields Mount { get; set; } = new();

    public MountTyped Typed() => new(Camera ?? "", Name ?? "", Notes ?? "", Unit, Mount.Typed(Unit), Version);

    public static MountInput Of(MountTyped typed) => new()
    {
        Camera = typed.Camera,
        Name = typed.Name,
        Notes = typed.Notes,
        Unit = typed.Unit,
        Mount = MountFields.Of(typed.Measures, typed.Unit),
        Version = typed.Version,
    };
}

/// <summary>Measures of a mount in the unit of the form around it.</summary>
public sealed class MountFields
{
    public double? RecessDiameter { get; set; }

    public double? RecessDepth { get; set; }

    public double? RearGroupDiameter { get; set; }

    public double? RearGroupHeight { get; set; }

    public double? NotchCircle { get; set; }

    public double? NotchWidth { get; set; }

    public double? NotchDepth { get; set; }

    public double? GateWidth { get; set; }

    public double? GateHeight { get; set; }

    public MountMeasures Typed(LengthUnit unit) => new()
    {
        RecessDiameter = InMillimetres.Of(RecessDiameter, unit),
        RecessDepth = InMillimetres.Of(RecessDepth, unit),
        RearGroupDiameter = InMillimetres.Of(RearGroupDiameter, unit),
        RearGroupHeight = InMillimetres.Of(RearGroupHeight, unit),
        NotchCircle = InMillimetres.Of(NotchCircle, unit),
        NotchWidth = InMillimetres.Of(NotchWidth, unit),
        NotchDepth = InMillimetres.Of(NotchDepth, unit),
        GateWidth = InMillimetres.Of(GateWidth, unit),
        GateHeight = InMillimetres.Of(GateHeight, unit),
    };

    public static MountFields Of(MountMeasures measures, LengthUnit unit) => new()
    {
        RecessDiameter = InMillimetres.Back(measures.RecessDiameter, unit),
        RecessDepth = InMillimetres.Back(measures.RecessDepth, unit),
        RearGroupDiameter = InMillimetres.Back(measures.RearGroupDiameter, unit),
        RearGroupHeight = InMillimetres.Back(measures.RearGroupHeight, unit),
        NotchCircle = InMillimetres.Back(measures.NotchCircle, unit),
        NotchWidth = InMillimetres.Back(measures.NotchWidth, unit),
        NotchDepth = InMillimetres.Back(measures.NotchDepth, unit),
        GateWidth = InMillimetres.Back(measures.GateWidth, unit),
        GateHeight = InMillimetres.Back(measures.GateHeight, unit),
    };
}
