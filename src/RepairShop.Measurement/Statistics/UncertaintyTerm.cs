namespace RepairShop.Measurement.Statistics;

/// <summary>Where an uncertainty term comes from; the paper lists each by name.</summary>
public enum UncertaintySource
{
    /// <summary>Scatter of repeated readings, type A: s/√n with n − 1 degrees of freedom (JCGM 100:2008, 4.2).</summary>
    Scatter,

    /// <summary>The instrument's smallest step r, rectangular: r/√12 (JCGM 100:2008, F.2.2.1).</summary>
    Resolution,

    /// <summary>Where within ±a the instrument starts and stops counting, rectangular: a/√3 (JCGM 100:2008, 4.3.7).</summary>
    Trigger,

    /// <summary>Any other term the caller states.</summary>
    Other,
}

/// <summary>One term of an uncertainty budget.</summary>
public sealed record UncertaintyTerm
{
    /// <summary>A term stated by the caller.</summary>
    /// <param name="source">Where it comes from.</param>
    /// <param name="standardUncertainty">One standard uncertainty in the unit of the result, 0 or more.</param>
    /// <param name="degreesOfFreedom">1 or more; positive infinity where the term is taken as known exactly.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative or non-finite uncertainty, degrees of freedom below 1 or NaN.</exception>
    public UncertaintyTerm(UncertaintySource source, double standardUncertainty, double degreesOfFreedom)
    {
        StandardUncertainty = Guard.NotNegative(standardUncertainty);
        if (!(degreesOfFreedom >= 1))
            throw new ArgumentOutOfRangeException(nameof(degreesOfFreedom), degreesOfFreedom, "Degrees of freedom start at 1.");
        (Source, DegreesOfFreedom) = (source, degreesOfFreedom);
    }

    /// <summary>Where the term comes from.</summary>
    public UncertaintySource Source { get; }

    /// <summary>One standard uncertainty in the unit of the result, 0 or more.</summary>
    public double StandardUncertainty { get; }

    /// <summary>Degrees of freedom, 1 to positive infinity.</summary>
    public double DegreesOfFreedom { get; }

    /// <summary>The scatter of readings, s/√n; null for a single reading, which says nothing of scatter.</summary>
    /// <param name="summary">The readings' summary.</param>
    public static UncertaintyTerm? Scatter(Summary summary)
    {
        ArgumentNullException.ThrowIfNull(summary);
        return summary.StandardDeviationOfMean is { } deviation
            ? new(UncertaintySource.Scatter, deviation, summary.Count - 1)
            : null;
    }

    /// <summary>An instrument's step r: r/√12 (JCGM 100:2008, F.2.2.1). It is common to all readings, so it is not divided by √n.</summary>
    /// <param name="step">Smallest step shown, in the unit of the result, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative, NaN or infinite.</exception>
    public static UncertaintyTerm Resolution(double step) =>
        new(UncertaintySource.Resolution, Guard.NotNegative(step) / Math.Sqrt(12), double.PositiveInfinity);

    /// <summary>A trigger point known within ±a: a/√3 (JCGM 100:2008, 4.3.7). It is common to all readings, so it is not divided by √n.</summary>
    /// <param name="halfWidth">The a of ±a, in the unit of the result, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative, NaN or infinite.</exception>
    public static UncertaintyTerm Trigger(double halfWidth) =>
        new(UncertaintySource.Trigger, Guard.NotNegative(halfWidth) / Math.Sqrt(3), double.PositiveInfinity);
}
