using RepairShop.Domain.Tools;
using RepairShop.Measurement.Tools;
using RepairShop.Services.Tools;

namespace RepairShop.Services.Demo;

/// <summary>A few special tools of the invented workshop, and two mounts they were made for.</summary>
internal static class DemoTools
{
    private static readonly ToolTyped[] Tools =
    [
        new("Ring spanner, 31.5 mm", ToolKind.RingSpanner, "Orrevale Pelter, shutter retaining ring from behind", "Drawer 3", "Turned here from brass tube; pins silver-soldered.",
            LengthUnit.Millimetre,
            new SpannerMeasures { OuterDiameter = 31.5, InnerDiameter = 26, Depth = 12, PinCircle = 28.5, PinWidth = 1.8, PinHeight = 1, CutAwayWidth = 23.5, Pins = 2 }, "", 0),
        new("Ring spanner blank, 1¼ in", ToolKind.RingSpanner, "", "Drawer 3", "As bought, to be turned down.", LengthUnit.Inch,
            new SpannerMeasures { OuterDiameter = 31.75, InnerDiameter = 25.4, Depth = 38.1, PinCircle = 28.575, PinWidth = 2.286, PinHeight = 1.524, Pins = 2 }, "", 0),
        new("Film-plane glass", ToolKind.Jig, "Any 24 × 36", "Shelf over the bench", "Ground side towards the lens.", LengthUnit.Millimetre, new SpannerMeasures(),
            "38 × 32 × 2 mm\nflat to 0.01 mm", 0),
        new("Depth gauge on a bridge", ToolKind.MeasuringTool, "Register of any body", "Case by the window", "", LengthUnit.Millimetre, new SpannerMeasures(),
            "0 to 100 mm, 0.01 mm\nbridge 120 mm", 0),
    ];

    private static readonly MountTyped[] Mounts =
    [
        new("Orrevale Pelter", "Shutter retaining ring, from behind", "Rear group stays in.", LengthUnit.Millimetre,
            new MountMeasures { RecessDiameter = 32, RecessDepth = 6, RearGroupDiameter = 25, RearGroupHeight = 4, NotchCircle = 28.5, NotchWidth = 2, NotchDepth = 1.2, GateWidth = 36, GateHeight = 24 }, 0),
        new("Tamborini Fola", "Front ring of the lens", "", LengthUnit.Millimetre,
            new MountMeasures { RecessDiameter = 40.5, RecessDepth = 3.2, NotchCircle = 37, NotchWidth = 1.6, NotchDepth = 0.9 }, 0),
    ];

    public static async Task AddAsync(DemoBook book)
    {
        foreach (var tool in Tools)
            await book.DoAsync<ToolService, Guid>("bench", tools => tools.AddAsync(tool, book.Cancel));
        foreach (var mount in Mounts)
            await book.DoAsync<MountService, Guid>("bench", mounts => mounts.AddAsync(mount, book.Cancel));
    }
}
