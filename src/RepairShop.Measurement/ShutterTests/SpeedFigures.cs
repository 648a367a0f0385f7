using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Statistics;

namespace RepairShop.Measurement.ShutterTests;

/// <summary>Everything the readings of one marked speed say.</summary>
public sealed record SpeedFigures
{
    private SpeedFigures(MarkedSpeed mark, Summary seconds) => (Mark, Seconds) = (mark, seconds);

    /// <summary>The mark on the dial.</summary>
    public MarkedSpeed Mark { get; }

    /// <summary>n, mean, s, least and greatest, in seconds.</summary>
    public Summary Seconds { get; }

    /// <summary>The time the readings are held against, in seconds; null for B and T.</summary>
    public double? ReferenceSeconds { get; private init; }

    /// <summary>Error of the mean in stops, log2(mean / reference): plus is longer, over-exposed. Null for B and T.</summary>
    public double? ErrorStops { get; private init; }

    /// <summary>
    /// U (95 %) of the mean in seconds with its terms; null for a single reading, which says nothing of scatter, and where neither scatter
    /// nor instrument gives any term (equal readings, no resolution stated).
    /// </summary>
    public ExpandedUncertainty? Uncertainty { get; private init; }

    /// <summary>
    /// Lower end of the error's 95 % interval, log2((mean − U) / reference), in stops. The interval is symmetric in seconds, so in stops its lower
    /// half is the longer one. Null without U or reference, and where mean − U is not above zero: then there is no lower end.
    /// </summary>
    public double? ErrorFromStops { get; private init; }

    /// <summary>Upper end of the error's 95 % interval, log2((mean + U) / reference), in stops. Null without U or reference.</summary>
    public double? ErrorToStops { get; private init; }

    /// <summary>How far U reaches below the error, in stops, 0 or more; null where <see cref="ErrorFromStops"/> is.</summary>
    public double? UncertaintyBelowStops => ErrorStops - ErrorFromStops;

    /// <summary>How far U reaches above the error, in stops, 0 or more; null where <see cref="ErrorToStops"/> is.</summary>
    public double? UncertaintyAboveStops => ErrorToStops - ErrorStops;

    /// <summary>Spread in stops, log2(greatest / least), 0 or more; null for a single reading.</summary>
    public double? SpreadStops => Seconds.Count > 1 ? Stops.Error(Seconds.Maximum, Seconds.Minimum) : null;

    /// <summary>The limit judged by, in stops either way; null for B and T or without limits.</summary>
    public double? LimitStops { get; private init; }

    /// <summary>
    /// Four states after <see cref="DecisionRule"/> on the error's interval in stops, which is the same as w = U on the mean in seconds. Without U
    /// only the "not proven" states; <see cref="Checks.Verdict.NotJudged"/> for B and T or without limits.
    /// </summary>
    public Verdict Verdict { get; private init; }

    /// <summary>Computes the figures of one marked speed.</summary>
    /// <param name="mark">The mark on the dial.</param>
    /// <param name="readingsSeconds">One or more readings in seconds, each greater than 0.</param>
    /// <param name="rule">Which time stands behind the mark; see <see cref="SpeedSeries.RuleFor"/>.</param>
    /// <param name="limits">The workshop's limits; null judges nothing.</param>
    /// <param name="instrument">What the instrument adds; see <see cref="TimingInstrument.AsTyped"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">No reading, or one that is zero, negative, NaN or infinite.</exception>
    public static SpeedFigures For(
        MarkedSpeed mark, ReadOnlySpan<double> readingsSeconds, ReferenceRule rule, SpeedLimits? limits, TimingInstrument instrument)
    {
        ArgumentNullException.ThrowIfNull(mark);
        ArgumentNullException.ThrowIfNull(instrument);
        foreach (var reading in readingsSeconds) Guard.Positive(reading, nameof(readingsSeconds));
        var seconds = Summary.Of(readingsSeconds);
        var uncertainty = UncertaintyOfMean(seconds, instrument);
        if (mark.ReferenceSeconds(rule) is not { } reference) return new(mark, seconds) { Uncertainty = uncertainty };

        var error = Stops.Error(seconds.Mean, reference);
        double? from = uncertainty is { } u && seconds.Mean - u.Expanded > 0 ? Stops.Error(seconds.Mean - u.Expanded, reference) : null;
        double? to = uncertainty is null ? null : Stops.Error(seconds.Mean + uncertainty.Expanded, reference);
        var limit = limits?.StopsFor(mark);
        return new(mark, seconds)
        {
            ReferenceSeconds = reference,
            ErrorStops = error,
            Uncertainty = uncertainty,
            ErrorFromStops = from,
            ErrorToStops = to,
            LimitStops = limit,
            Verdict = DecisionRule.Judge(error, from ?? double.NegativeInfinity, to ?? double.PositiveInfinity, -limit, limit),
        };
    }

    private static ExpandedUncertainty? UncertaintyOfMean(Summary seconds, TimingInstrument instrument)
    {
        if (UncertaintyTerm.Scatter(seconds) is not { } scatter) return null;
        var combined = ExpandedUncertainty.Combine(
        [
            scatter,
            UncertaintyTerm.Resolution(instrument.ResolutionSeconds),
            UncertaintyTerm.Trigger(instrument.TriggerHalfWidthSeconds),
        ]);
        return combined.Standard > 0 ? combined : null;
    }
}
