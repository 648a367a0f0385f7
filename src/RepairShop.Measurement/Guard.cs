using System.Runtime.CompilerServices;

namespace RepairShop.Measurement;

/// <summary>Turns away numbers that no instrument can give; NaN fails every one of these comparisons.</summary>
internal static class Guard
{
    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value) ? value : throw Misuse(name, value, "must be a finite number");

    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value) && value > 0 ? value : throw Misuse(name, value, "must be finite and greater than zero");

    public static double NotNegative(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value) && value >= 0 ? value : throw Misuse(name, value, "must be finite and not negative");

    private static ArgumentOutOfRangeException Misuse(string name, double value, string rule) => new(name, value, $"{name} {rule}.");
}
