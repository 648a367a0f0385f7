using RepairShop.Domain.Results;
using RepairShop.Domain.Tools;
using RepairShop.Measurement.Gauges;
using RepairShop.Measurement.Tools;

namespace RepairShop.Domain.Worksheets;

/// <summary>What was typed about a register and its shims.</summary>
/// <param name="Unit">Of <paramref name="Measured"/>, <paramref name="Nominal"/> and <paramref name="Shims"/>; lens figures are millimetres always.</param>
/// <param name="Shims">What lies there now; null when not measured.</param>
/// <param name="SetMetres">A distance set on the scale, metres from the film; null when not asked for.</param>
public sealed record FocusTyped(
    LengthUnit Unit, double? Measured, double? Nominal, double? Shims, double? FocalLength, double? FNumber, double? Circle, double? SetMetres);

/// <summary>A register, worked out.</summary>
/// <param name="FallsAt">Where focus falls with <see cref="FocusTyped.SetMetres"/> set, mm from the film; null past infinity.</param>
public sealed record FocusWorked(Register Register, LengthUnit Unit, double FNumber, double Circle, double? SetMetres, double? FallsAt, WorksheetFinding Finding);

public static class FocusSheet
{
    public static Result<FocusWorked> Work(FocusTyped typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        var values = new SheetValues();
        var longest = Length.FromMillimetres(1000, typed.Unit);
        var range = $"above 0, at most {ToolWords.Written(1000, typed.Unit)}";
        var measured = values.Needed(typed.Measured, "Measured", "Measured register", double.Epsilon, longest, range);
        var nominal = values.Needed(typed.Nominal, "Nominal", "Nominal register", double.Epsilon, longest, range);
        var shims = values.Optional(typed.Shims, "Shims", "Shims", 0, longest, $"0 or more, at most {ToolWords.Written(1000, typed.Unit)}");
        var lens = values.Lens(typed.FocalLength);
        var fNumber = values.FNumber(typed.FNumber);
        var circle = values.Circle(typed.Circle);
        var set = values.Optional(typed.SetMetres, "SetMetres", "Distance set", 0.004 * (double.IsNaN(lens) ? 1 : lens), 10_000, "at least four focal lengths, at most 10000 m");
        if (values.Refusal is { } refused)
            return refused;
        double Mm(double value) => Length.ToMillimetres(value, typed.Unit);
        var register = new Register(Mm(measured), Mm(nominal), lens, fNumber, circle, shims is { } now ? Mm(now) : null);
        return new FocusWorked(
            register, typed.Unit, fNumber, circle, set, set is { } metres ? FromFilm(register, metres * 1000) : null,
            new("Focus", "Register error", WorksheetFinding.Rounded(register.Gauge), Words(register, Mm(measured), Mm(nominal), fNumber, typed.Unit)));
    }

    private static double? FromFilm(Register register, double filmDistance)
    {
        var plane = register.FocusesAt(Focus.ObjectDistance(register.FocalLength, filmDistance));
        return plane + register.FocalLength + Focus.Extension(register.FocalLength, plane ?? double.MaxValue);
    }

    private static string Words(Register register, double measured, double nominal, double fNumber, LengthUnit unit)
    {
        var (sign, change) = (register.ShimChange < 0 ? "take out" : "add", Math.Abs(register.ShimChange));
        var advice = change < 0.0005 ? "no shim to change" : $"{sign} {ToolWords.Written(change, unit)} of shim";
        return $"Measured {ToolWords.Written(measured, unit)}, nominal {ToolWords.Written(nominal, unit)}: {advice}. "
            + $"Limit ±{ToolWords.Written(register.HalfDepth, LengthUnit.Millimetre)}, half the depth of focus of {SheetText.Number(register.FocalLength)} mm at f/{SheetText.Number(fNumber)}.";
    }
}
