namespace RepairShop.Measurement.Checks;

/// <summary>Any measured quantity with a unit and limits: a flange distance, a spring's force, a self-timer's run.</summary>
public sealed record Gauge
{
    /// <summary>One measured quantity.</summary>
    /// <param name="value">Measured value in <paramref name="unit"/>, either sign.</param>
    /// <param name="unit">The unit as written beside the number, such as "mm" or "s"; may be empty for a plain ratio.</param>
    /// <param name="low">Lower limit in the same unit; null for none.</param>
    /// <param name="high">Upper limit in the same unit, not below <paramref name="low"/>; null for none.</param>
    /// <param name="expandedUncertainty">U (95 %) in the same unit, 0 or more; null when nobody has stated one.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number that is NaN or infinite, a negative U, or limits crossed.</exception>
    public Gauge(double value, string unit, double? low, double? high, double? expandedUncertainty = null)
    {
        ArgumentNullException.ThrowIfNull(unit);
        (Value, Unit, Low, High, ExpandedUncertainty) = (value, unit, low, high, expandedUncertainty);
        Verdict = expandedUncertainty is { } u
            ? DecisionRule.Judge(value, low, high, u)
            : DecisionRule.JudgeSimply(value, low, high);
    }

    /// <summary>Measured value in <see cref="Unit"/>.</summary>
    public double Value { get; }

    /// <summary>The unit as written beside the number; empty for a plain ratio.</summary>
    public string Unit { get; }

    /// <summary>Lower limit in <see cref="Unit"/>; null for none.</summary>
    public double? Low { get; }

    /// <summary>Upper limit in <see cref="Unit"/>; null for none.</summary>
    public double? High { get; }

    /// <summary>U (95 %) in <see cref="Unit"/>; null when nobody has stated one.</summary>
    public double? ExpandedUncertainty { get; }

    /// <summary>
    /// With U one of the four states of <see cref="DecisionRule"/>; without U only <see cref="Verdict.Within"/> or <see cref="Verdict.Outside"/>;
    /// <see cref="Verdict.NotJudged"/> without limits.
    /// </summary>
    public Verdict Verdict { get; }
}
