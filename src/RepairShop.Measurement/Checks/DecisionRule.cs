namespace RepairShop.Measurement.Checks;

/// <summary>
/// The decision rule of every judged value: guard band w = U, four states (ILAC-G8:09/2019, 4.2.2). A value on a limit counts as inside it.
/// Comparisons forgive 10⁻¹² of the numbers compared: that is arithmetic, not measurement.
/// </summary>
public static class DecisionRule
{
    private const double Arithmetic = 1e-12;

    /// <summary>Judges a value with the same uncertainty on both sides.</summary>
    /// <param name="value">The measured value, any unit, either sign.</param>
    /// <param name="low">Lower limit in the same unit; null for none.</param>
    /// <param name="high">Upper limit in the same unit, not below <paramref name="low"/>; null for none.</param>
    /// <param name="expandedUncertainty">U (95 %) in the same unit, 0 or more.</param>
    /// <returns><see cref="Verdict.NotJudged"/> when both limits are missing, else one of the four states.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A number that is NaN or infinite, a negative U, or limits crossed.</exception>
    public static Verdict Judge(double value, double? low, double? high, double expandedUncertainty)
    {
        Guard.Finite(value);
        Guard.NotNegative(expandedUncertainty);
        return Judge(value, value - expandedUncertainty, value + expandedUncertainty, low, high);
    }

    /// <summary>Judges a value whose 95 % interval need not be symmetric, as that of a logarithm.</summary>
    /// <param name="value">The measured value, any unit, either sign.</param>
    /// <param name="from">Lower end of its interval in the same unit, at most <paramref name="value"/>; negative infinity where it has none.</param>
    /// <param name="to">Upper end of its interval in the same unit, at least <paramref name="value"/>; positive infinity where it has none.</param>
    /// <param name="low">Lower limit in the same unit; null for none.</param>
    /// <param name="high">Upper limit in the same unit, not below <paramref name="low"/>; null for none.</param>
    /// <returns><see cref="Verdict.NotJudged"/> when both limits are missing, else one of the four states.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value or limit that is NaN or infinite, an interval that misses the value, or limits crossed.</exception>
    public static Verdict Judge(double value, double from, double to, double? low, double? high)
    {
        Guard.Finite(value);
        if (!(from <= value)) throw new ArgumentOutOfRangeException(nameof(from), from, "The interval must contain the value.");
        if (!(to >= value)) throw new ArgumentOutOfRangeException(nameof(to), to, "The interval must contain the value.");
        if (low is { } l) Guard.Finite(l, nameof(low));
        if (high is { } h) Guard.Finite(h, nameof(high));
        if (low > high) throw new ArgumentOutOfRangeException(nameof(high), high, "The upper limit must not be below the lower one.");
        if (low is null && high is null) return Verdict.NotJudged;

        bool AtLeastLow(double x) => low is not { } limit || NotAbove(limit, x);
        bool AtMostHigh(double x) => high is not { } limit || NotAbove(x, limit);

        if (AtLeastLow(value) && AtMostHigh(value))
            return AtLeastLow(from) && AtMostHigh(to) ? Verdict.Within : Verdict.WithinNotProven;
        return AtLeastLow(to) && AtMostHigh(from) ? Verdict.OutsideNotProven : Verdict.Outside;
    }

    /// <summary>Simple comparison without an uncertainty: <see cref="Verdict.Within"/> or <see cref="Verdict.Outside"/> only (ILAC-G8:09/2019, 4.2.1).</summary>
    /// <param name="value">The measured value, any unit, either sign.</param>
    /// <param name="low">Lower limit in the same unit; null for none.</param>
    /// <param name="high">Upper limit in the same unit, not below <paramref name="low"/>; null for none.</param>
    /// <returns><see cref="Verdict.NotJudged"/> when both limits are missing.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A number that is NaN or infinite, or limits crossed.</exception>
    public static Verdict JudgeSimply(double value, double? low, double? high) => Judge(value, low, high, 0);

    private static bool NotAbove(double a, double b) =>
        a <= b || (double.IsFinite(a) && double.IsFinite(b) && a - b <= Arithmetic * Math.Max(Math.Abs(a), Math.Abs(b)));
}
