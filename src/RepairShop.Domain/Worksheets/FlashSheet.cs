using RepairShop.Domain.Results;
using RepairShop.Measurement.Gauges;

namespace RepairShop.Domain.Worksheets;

/// <summary>What was typed about a flash capacitor and the resistor that discharges it.</summary>
public sealed record FlashTyped(double? Microfarads, double? Volts, double? Ohms, double? SafeVolts);

public static class FlashSheet
{
    public static Result<FlashCapacitor> Work(FlashTyped typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        var values = new SheetValues();
        var farads = values.Needed(typed.Microfarads, "Microfarads", "Capacity", 0.001, 1e6, "0.001 to 1000000 µF") * 1e-6;
        var volts = values.Needed(typed.Volts, "Volts", "Voltage", 1, 10_000, "1 to 10000 V");
        var ohms = values.Needed(typed.Ohms, "Ohms", "Resistor", 1, 1e8, "1 to 100000000 Ω");
        var safe = values.Needed(typed.SafeVolts, "SafeVolts", "May be left", 0.01, 25, "0.01 to 25 V");
        return values.Refusal is { } refused ? refused : new FlashCapacitor(farads, volts, ohms, safe);
    }
}
