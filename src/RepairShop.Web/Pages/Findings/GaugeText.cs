using System.Globalization;
using RepairShop.Measurement.Checks;

namespace RepairShop.Web.Pages.Findings;

/// <summary>A gauge as it is read: the value with its unit, and the limits it is held against.</summary>
public static class GaugeText
{
    public static string Value(Gauge gauge) => $"{Number(gauge.Value)}\u00A0{gauge.Unit}".Trim();

    public static string Limits(Gauge gauge) => (gauge.Low, gauge.High) switch
    {
        ({ } low, { } high) => $"({Number(low)} to {Number(high)}\u00A0{gauge.Unit}".Trim() + ")",
        ({ } low, null) => $"(at least {Number(low)}\u00A0{gauge.Unit}".Trim() + ")",
        (null, { } high) => $"(at most {Number(high)}\u00A0{gauge.Unit}".Trim() + ")",
        _ => "",
    };

    private static string Number(double value) => value.ToString("0.######", CultureInfo.CurrentCulture);
}
