using RepairShop.Domain.Findings;
using RepairShop.Measurement.Checks;

namespace RepairShop.Domain.Worksheets;

/// <summary>What a worksheet hands on to the findings of a repair: one gauge with its limits, and the readings behind it in words.</summary>
/// <param name="Component">What was looked at.</param>
/// <param name="GaugeName">What was measured.</param>
/// <param name="Gauge">Value, unit, limits and verdict.</param>
/// <param name="Text">The readings behind it.</param>
public sealed record WorksheetFinding(string Component, string GaugeName, Gauge Gauge, string Text)
{
    /// <summary>A length in millimetres to the tenth of a thousandth: more digits would be arithmetic, not measurement.</summary>
    public static Gauge Rounded(Gauge gauge)
    {
        ArgumentNullException.ThrowIfNull(gauge);
        static double? To(double? value) => value is { } number ? Math.Round(number, 4) : null;
        return new Gauge(Math.Round(gauge.Value, 4), gauge.Unit, To(gauge.Low), To(gauge.High));
    }

    /// <summary>Within its limits it is sound; outside it is worn or out of adjustment, which a person may put otherwise on the finding.</summary>
    public Condition Condition => Gauge.Verdict is Verdict.Outside or Verdict.OutsideNotProven ? Condition.Worn : Condition.Sound;
}
