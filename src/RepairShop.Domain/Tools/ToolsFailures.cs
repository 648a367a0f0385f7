using RepairShop.Domain.Results;

namespace RepairShop.Domain.Tools;

public sealed record ToolNotFound() : NotFound("This tool is not in the register.");

public sealed record MountNotFound() : NotFound("This mount is not in the register.");

public sealed record ToolNameMissing() : Invalid("Name", "Name is empty: write what the tool is, such as ring spanner for the rear ring.");

public sealed record MountCameraMissing() : Invalid("Camera", "Camera is empty: write maker and model.");

public sealed record MountNameMissing() : Invalid("Name", "Name is empty: write which ring it is, such as shutter retaining ring.");

public sealed record OnlyRingSpannersHavePins()
    : Invalid("Kind", "Tube and pins belong to a ring spanner: choose that kind, or empty those measures.");

/// <param name="Name">The input's name, such as Spanner.Depth.</param>
/// <param name="Words">The measure's name.</param>
public sealed record MeasureMissing(string Name, string Words) : Invalid(Name, $"{Words} is empty: measure it.");

public sealed record MeasureOutOfRange(string Name, string Words)
    : Invalid(Name, $"{Words} can't be that: write a length above 0, at most 1000 mm (39 in).");

public sealed record BoreWiderThanTube() : Invalid("Spanner.InnerDiameter", "The bore can't be as wide as the tube: check inner and outer diameter.");

public sealed record CutAwayWiderThanTube()
    : Invalid("Spanner.CutAwayWidth", "The width across the cut-away sides can't be more than the outer diameter: leave it empty for a round tube.");

public sealed record PinsOutOfRange(int Pins) : Invalid("Spanner.Pins", $"{Pins} pins can't be: write 1 to 12.");

public sealed record GateSidesSwapped() : Invalid("Mount.GateHeight", "The film gate's short side is longer than its long side: swap them.");
