using MathNet.Numerics.Distributions;

namespace RepairShop.Measurement.Statistics;

/// <summary>Coverage factors for 95 % two-sided intervals.</summary>
public static class Coverage
{
    /// <summary>From this many degrees of freedom Student's t and the normal distribution agree to six digits.</summary>
    private const double AsGoodAsNormal = 1e6;

    /// <summary>
    /// Student's t for a two-sided 95 % interval, dimensionless, from 12.706 at one degree of freedom down to 1.95996 at infinity
    /// (JCGM 100:2008, table G.2). Broken degrees of freedom are taken as they are, which is the interpolation G.4.1 allows.
    /// </summary>
    /// <param name="degreesOfFreedom">1 or more; positive infinity for a term that is known exactly.</param>
    /// <exception cref="ArgumentOutOfRangeException">Less than 1, or NaN.</exception>
    public static double Factor95(double degreesOfFreedom)
    {
        if (!(degreesOfFreedom >= 1))
            throw new ArgumentOutOfRangeException(nameof(degreesOfFreedom), degreesOfFreedom, "Degrees of freedom start at 1.");
        return degreesOfFreedom >= AsGoodAsNormal
            ? Normal.InvCDF(0, 1, 0.975)
            : StudentT.InvCDF(0, 1, degreesOfFreedom, 0.975);
    }
}
