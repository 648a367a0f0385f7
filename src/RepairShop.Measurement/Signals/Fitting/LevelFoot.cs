namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>
/// An edge that sets off, or comes to rest, without a slope: the iris, the smooth start. There g′(0) = 1 + Σcₖ = 0, and a little slope looks like
/// a little later start to first order, so that samples with noise cannot tell both; left free, the closed end would stray by the root of the
/// noise, and to one side. So where a slope explains nothing, the roundness follows from the other terms.
/// </summary>
internal static class LevelFoot
{
    private const int Roundness = 1;

    /// <summary>The parameter that follows from the others.</summary>
    public static int Following(int shape) => shape + Roundness;

    /// <summary>The slope at the foot, where 1 is the mean slope of the edge.</summary>
    public static double Slope(double[] parameters, int shape)
    {
        double slope = 1;
        for (var k = 0; k < EdgeShape.Count; k++) slope += parameters[shape + k];
        return slope;
    }

    /// <summary>Makes the foot level, in place.</summary>
    public static void Follow(double[] parameters, int shape) => parameters[Following(shape)] -= Slope(parameters, shape);

    /// <summary>Slopes with a shape's terms become slopes with the terms that are left.</summary>
    public static void Fold(Span<double> withTerms)
    {
        var following = withTerms[Roundness];
        foreach (ref var slope in withTerms) slope -= following;
    }

    /// <summary>What holding the roundness near the usual one costs, with its part of the normal equations.</summary>
    public static double Hold(double[] at, int shape, bool[] free, double[,] normal, double[] right)
    {
        var spread = EdgeShape.Spread[Roundness];
        var away = (EdgeShape.Usual[Roundness] - at[Following(shape)]) / spread;
        for (var i = shape; i < shape + EdgeShape.Count; i++)
        {
            if (!free[i]) continue;
            right[i] -= away / spread;
            for (var j = shape; j < shape + EdgeShape.Count; j++)
                if (free[j]) normal[i, j] += 1 / (spread * spread);
        }

        return away * away;
    }

    /// <summary>Gives the roundness the covariances that follow from those of the other terms.</summary>
    public static void Spread(double[,] covariance, int shape)
    {
        var (size, following) = (covariance.GetLength(0), Following(shape));
        for (var i = 0; i < size; i++)
        {
            double sum = 0;
            for (var k = shape; k < shape + EdgeShape.Count; k++)
                if (k != following) sum -= covariance[i, k];
            if (i != following) covariance[i, following] = covariance[following, i] = sum;
        }

        double own = 0;
        for (var k = shape; k < shape + EdgeShape.Count; k++)
            if (k != following) own -= covariance[following, k];
        covariance[following, following] = own;
    }
}
