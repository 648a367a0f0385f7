using RepairShop.Domain.Tools;
using RepairShop.Measurement.Tools;

namespace RepairShop.Services.Tools;

/// <summary>What a person typed about a tool; lengths in millimetres.</summary>
/// <param name="Unit">The unit they were typed in.</param>
/// <param name="Version">0 for a new tool.</param>
public sealed record ToolTyped(
    string Name, ToolKind Kind, string Fits, string Place, string Notes, LengthUnit Unit, SpannerMeasures Spanner, string OtherMeasures, uint Version);

public sealed record ToolLine(
    Guid Id, string Name, ToolKind Kind, string Fits, string Place, LengthUnit Unit, SpannerMeasures Spanner, string OtherMeasures);

public sealed record ToolView(Guid Id, ToolTyped Typed, bool Retired);

/// <summary>What a person typed about a mount; lengths in millimetres.</summary>
/// <param name="Unit">The unit they were typed in.</param>
/// <param name="Version">0 for a new mount.</param>
public sealed record MountTyped(string Camera, string Name, string Notes, LengthUnit Unit, MountMeasures Measures, uint Version);

public sealed record MountLine(Guid Id, string Camera, string Name, LengthUnit Unit, MountMeasures Measures)
{
    public string Words => $"{Camera}, {Name}";
}

public sealed record MountView(Guid Id, MountTyped Typed, bool Retired);

/// <summary>The register, by name.</summary>
/// <param name="Count">How many there are in all; <paramref name="Lines"/> may be fewer.</param>
public sealed record Register<T>(IReadOnlyList<T> Lines, int Count, int Page, int Pages);

/// <summary>What the register is asked for.</summary>
/// <param name="Text">Part of a name, what it fits, or place.</param>
/// <param name="Retired">Retired ones instead of the others.</param>
/// <param name="Page">From 1.</param>
public sealed record RegisterQuestion(string Text, bool Retired, int Page);
