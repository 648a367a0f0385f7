namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>
/// How light grows while blades move, over the share s of their run: g(s) = s + a·s(1 − s) + b·s(1 − s)(1 − 2s). Straight is a = b = 0; an iris
/// whose diameter grows evenly, g = s², is a = −1; a smooth start and stop, 3s² − 2s³, is b = −1. A closing edge is the same read backwards.
/// </summary>
/// <param name="Lean">a, from −1.2 to 1.2.</param>
/// <param name="Roundness">b, from −1.2 to 1.</param>
internal readonly record struct EdgeShape(double Lean, double Roundness)
{
    /// <summary>What is expected before looking, between straight and iris, and how far real shutters stray from it (common practice).</summary>
    public const double UsualLean = -0.35;

    /// <inheritdoc cref="UsualLean"/>
    public const double LeanSpread = 0.6;

    /// <inheritdoc cref="UsualLean"/>
    public const double UsualRoundness = -0.15;

    /// <inheritdoc cref="UsualLean"/>
    public const double RoundnessSpread = 0.4;

    public static EdgeShape Usual => new(UsualLean, UsualRoundness);

    public EdgeShape Clamped => new(Math.Clamp(Lean, -1.2, 1.2), Math.Clamp(Roundness, -1.2, 1));

    /// <summary>∫g ds from 0 to 1: the share of its duration that an edge counts as fully open.</summary>
    public double Area => 0.5 + Lean / 6;

    public double At(double s) => s <= 0 ? 0 : s >= 1 ? 1 : s + s * (1 - s) * (Lean + Roundness * (1 - 2 * s));

    public double SlopeAt(double s) => s <= 0 || s >= 1 ? 0 : 1 + Lean * (1 - 2 * s) + Roundness * (1 - 6 * s + 6 * s * s);

    /// <summary>Where it crosses a level, by bisection; the last crossing where a strongly bent shape has more than one.</summary>
    public double Crossing(double level)
    {
        var (low, high) = (0.0, 1.0);
        for (var i = 0; i < 50; i++)
        {
            var middle = (low + high) / 2;
            if (At(middle) < level) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }
}
