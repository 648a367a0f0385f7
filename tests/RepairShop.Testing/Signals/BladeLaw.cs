namespace RepairShop.Testing.Signals;

/// <summary>How light grows with the blades' run, as polynomials over the share of the run; written down by hand, nothing of it is the analysis'.</summary>
public sealed record BladeLaw(string Name, IReadOnlyList<(double From, double To, double[] Coefficients)> Pieces)
{
    public static readonly BladeLaw Straight = new("straight", [(0, 1, [0, 1])]);

    /// <summary>Opening diameter linear in time: area as its square.</summary>
    public static readonly BladeLaw Iris = new("iris", [(0, 1, [0, 0, 1])]);

    /// <summary>A smooth start and stop, 3s² − 2s³.</summary>
    public static readonly BladeLaw Smooth = new("smooth", [(0, 1, [0, 0, 3, -2])]);

    /// <summary>Slow for the first 45 % of the time (a quarter of the light), then quick.</summary>
    public static readonly BladeLaw Uneven = new("uneven", [(0, 0.45, [0, 0.25 / 0.45]), (0.45, 1, [0.25 - 0.45 * 0.75 / 0.55, 0.75 / 0.55])]);

    public static readonly IReadOnlyList<BladeLaw> All = [Straight, Iris, Smooth, Uneven];

    public double At(double share)
    {
        foreach (var (_, to, c) in Pieces)
            if (share <= to) return Polynomial(c, share);
        return 1;
    }

    public static double Polynomial(double[] c, double x)
    {
        double value = 0;
        for (var i = c.Length - 1; i >= 0; i--) value = value * x + c[i];
        return value;
    }
}
