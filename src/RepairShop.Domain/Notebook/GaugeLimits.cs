using RepairShop.Measurement.Gauges;

namespace RepairShop.Domain.Notebook;

/// <summary>Limits of a gauge as people write them: "8 to 12 s", "at most 0.5 mm", "2:00 to 3:00 o'clock".</summary>
public static class GaugeLimits
{
    /// <summary>The unit of a place on a clock's face, as a spring's resting end is read.</summary>
    public const string Clock = SpringAtRest.Unit;

    /// <summary>A unit never stands alone on the next line.</summary>
    private const char NoBreak = '\u00A0';

    public static string Write(string unit, double? low, double? high, IFormatProvider culture)
    {
        var (from, to) = (low is { } l ? One(unit, l, culture) : null, high is { } h ? One(unit, h, culture) : null);
        var numbers = (from, to) switch
        {
            (null, null) => "no limits yet",
            (null, _) => $"at most {to}",
            (_, null) => $"at least {from}",
            _ => from == to ? from : $"{from} to {to}",
        };
        return from is null && to is null || unit.Length == 0 ? numbers : $"{numbers}{NoBreak}{unit}";
    }

    /// <summary>One value without its unit.</summary>
    public static string One(string unit, double value, IFormatProvider culture) =>
        unit == Clock ? ClockPosition.FromDegrees(value * 30).ToString() : value.ToString("0.####", culture);

    /// <summary>The clock's face goes round: eleven to one is a stretch over twelve, not a pair of limits crossed.</summary>
    public static bool AreCrossed(string unit, double? low, double? high) => unit != Clock && low > high;

    /// <summary>A unit as it is kept: every way of writing o'clock is one.</summary>
    public static string UnitOf(string typed)
    {
        var unit = typed.Trim();
        return unit.Replace("'", "", StringComparison.Ordinal).Replace("’", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal)
            .ToUpperInvariant() is "OCLOCK" or "CLOCK" ? Clock : unit;
    }
}
