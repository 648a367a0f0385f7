using RepairShop.Domain.Results;
using RepairShop.Measurement.Checks;

namespace RepairShop.Domain.Findings;

/// <summary>What a finding must hold, and what its gauge says.</summary>
public static class FindingRules
{
    /// <summary>Null when the finding may be kept.</summary>
    public static Failure? WhyNot(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        if (string.IsNullOrWhiteSpace(finding.Component))
            return new ComponentMissing();
        return GaugeWhyNot(finding);
    }

    /// <summary>The gauge with its verdict; null when nothing was measured.</summary>
    public static Gauge? GaugeOf(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return finding.GaugeValue is { } value ? new Gauge(value, finding.GaugeUnit, finding.GaugeLow, finding.GaugeHigh) : null;
    }

    private static Invalid? GaugeWhyNot(Finding finding)
    {
        foreach (var (name, value) in new[]
            { ("GaugeValue", finding.GaugeValue), ("GaugeLow", finding.GaugeLow), ("GaugeHigh", finding.GaugeHigh) })
        {
            if (value is { } number && !double.IsFinite(number))
                return new GaugeNotFinite(name);
        }

        var given = finding.GaugeName.Length > 0 ? finding.GaugeName : $"{finding.GaugeLow ?? finding.GaugeHigh}";
        if (finding.GaugeValue is null)
            return given.Length > 0 ? new GaugeNeedsValue(given) : null;
        if (finding.GaugeName.Length == 0)
            return new GaugeNeedsName();
        return finding.GaugeLow is { } low && finding.GaugeHigh is { } high && low > high ? new GaugeLimitsCrossed(low, high) : null;
    }
}
