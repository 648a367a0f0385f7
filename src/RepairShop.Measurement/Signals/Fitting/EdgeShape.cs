namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>
/// How light grows while blades move, over the share s of their run: g(s) = s + s(1 − s)·Σ cₖ·Pₖ(1 − 2s), Pₖ the Legendre polynomials. Straight
/// is no term at all; an iris whose diameter grows evenly, g = s², is c₀ = −1; a smooth start and stop, 3s² − 2s³, is c₁ = −1. The higher terms
/// are for blades that hesitate or kink. A closing edge is the same read backwards.
/// </summary>
internal readonly ref struct EdgeShape(ReadOnlySpan<double> terms)
{
    /// <summary>Terms of one edge: the lean, the roundness, and five for kinks.</summary>
    public const int Count = 7;

    /// <summary>Terms every edge is fitted with; the others only where the samples ask for them.</summary>
    public const int Plain = 2;

    private readonly ReadOnlySpan<double> terms = terms;

    /// <summary>What is expected before looking, between straight and iris.</summary>
    public static ReadOnlySpan<double> Usual => [-0.35, -0.15, 0, 0, 0, 0, 0];

    /// <summary>How far real shutters stray from it (common practice).</summary>
    public static ReadOnlySpan<double> Spread => [0.6, 0.4, 0.2, 0.12, 0.1, 0.08, 0.06];

    /// <summary>No term goes beyond this either way.</summary>
    public static ReadOnlySpan<double> Most => [1.2, 1.2, 0.6, 0.4, 0.4, 0.3, 0.3];

    /// <summary>∫g ds from 0 to 1: the share of its duration that an edge counts as fully open.</summary>
    public double Area => 0.5 + terms[0] / 6 - terms[2] / 30;

    public double At(double s)
    {
        if (s <= 0) return 0;
        if (s >= 1) return 1;
        Span<double> p = stackalloc double[Count];
        Legendre(1 - 2 * s, p);
        return s + s * (1 - s) * Dot(p);
    }

    /// <summary>Value and slope with s at a place between 0 and 1, and the slope with each term.</summary>
    public double At(double s, Span<double> withTerms, out double slope)
    {
        var (u, bow) = (1 - 2 * s, s * (1 - s));
        Legendre(u, withTerms);
        var (u2, sum) = (u * u, Dot(withTerms));
        var bend = terms[1] + terms[2] * 3 * u + terms[3] * (7.5 * u2 - 1.5) + terms[4] * (17.5 * u2 - 7.5) * u
            + terms[5] * ((39.375 * u2 - 26.25) * u2 + 1.875) + terms[6] * ((86.625 * u2 - 78.75) * u2 + 13.125) * u;
        slope = 1 + u * sum - 2 * bow * bend;
        for (var k = 0; k < Count; k++) withTerms[k] *= bow;
        return s + bow * sum;
    }

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

    private static void Legendre(double u, Span<double> p)
    {
        var u2 = u * u;
        (p[0], p[1], p[2], p[3]) = (1, u, 1.5 * u2 - 0.5, (2.5 * u2 - 1.5) * u);
        (p[4], p[5]) = ((4.375 * u2 - 3.75) * u2 + 0.375, ((7.875 * u2 - 8.75) * u2 + 1.875) * u);
        p[6] = ((14.4375 * u2 - 19.6875) * u2 + 6.5625) * u2 - 0.3125;
    }

    private double Dot(ReadOnlySpan<double> p)
    {
        double sum = 0;
        for (var k = 0; k < Count; k++) sum += terms[k] * p[k];
        return sum;
    }
}
