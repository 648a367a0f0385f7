using RepairShop.Domain.Results;

namespace RepairShop.Domain.Findings;

public sealed record FindingNotFound() : NotFound("This finding is not there any more.");

public sealed record ComponentMissing() : Invalid("Component", "Component is empty: write what you looked at, such as shutter blades.");

public sealed record GaugeNeedsValue(string Given)
    : Invalid("GaugeValue", $"“{Given}” was given without a measured value: write the value, or empty the other gauge fields.");

public sealed record GaugeNeedsName() : Invalid("GaugeName", "Name what was measured, such as flange distance.");

public sealed record GaugeLimitsCrossed(double Low, double High)
    : Invalid("GaugeHigh", $"The upper limit {High} is below the lower limit {Low}: swap them.");

public sealed record GaugeNotFinite(string Name) : Invalid(Name, "This number is too large to be a measurement: check it.");
