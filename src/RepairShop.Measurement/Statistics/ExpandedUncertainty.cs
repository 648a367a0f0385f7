namespace RepairShop.Measurement.Statistics;

/// <summary>A combined 95 % uncertainty with the budget it came from (JCGM 100:2008, 5.1.2, 6.2 and G.4.1).</summary>
/// <param name="Expanded">U = k·u, half the width of the 95 % interval, in the unit of the terms, 0 or more.</param>
/// <param name="Standard">u, the root of the sum of the terms' squares, in the unit of the terms, 0 or more.</param>
/// <param name="DegreesOfFreedom">Effective degrees of freedom after Welch and Satterthwaite, 1 to positive infinity.</param>
/// <param name="CoverageFactor">k, Student's t for 95 % at those degrees of freedom, dimensionless.</param>
/// <param name="Terms">The budget: every term that went in, in the order given.</param>
public sealed record ExpandedUncertainty(
    double Expanded, double Standard, double DegreesOfFreedom, double CoverageFactor, IReadOnlyList<UncertaintyTerm> Terms)
{
    /// <summary>
    /// Combines independent terms of unit sensitivity: u² = Σuᵢ², ν_eff = u⁴ / Σ(uᵢ⁴/νᵢ) (JCGM 100:2008, eq. G.2b), k = t95(ν_eff), U = k·u.
    /// </summary>
    /// <param name="terms">One or more terms in one unit.</param>
    /// <exception cref="ArgumentOutOfRangeException">No term at all.</exception>
    public static ExpandedUncertainty Combine(IReadOnlyList<UncertaintyTerm> terms)
    {
        ArgumentNullException.ThrowIfNull(terms);
        if (terms.Count == 0) throw new ArgumentOutOfRangeException(nameof(terms), "An uncertainty needs at least one term.");
        // Scaled by the largest term, so that fourth powers of microseconds do not run out of digits.
        var largest = terms.Max(t => t.StandardUncertainty);
        if (largest == 0) return new(0, 0, double.PositiveInfinity, Coverage.Factor95(double.PositiveInfinity), [.. terms]);

        double squares = 0, fourths = 0;
        foreach (var term in terms)
        {
            var share = term.StandardUncertainty / largest;
            squares += share * share;
            fourths += Math.Pow(share, 4) / term.DegreesOfFreedom;
        }

        var standard = largest * Math.Sqrt(squares);
        var degrees = fourths > 0 ? Math.Max(1, squares * squares / fourths) : double.PositiveInfinity;
        var factor = Coverage.Factor95(degrees);
        return new(factor * standard, standard, degrees, factor, [.. terms]);
    }
}
