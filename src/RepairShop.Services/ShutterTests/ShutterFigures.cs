using System.Globalization;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.ShutterTests;
using RepairShop.Measurement.Checks;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Services.Recordings;

namespace RepairShop.Services.ShutterTests;

/// <summary>From stored readings to figures, under the rules frozen in their test.</summary>
internal static class ShutterFigures
{
    public static ReferenceRule RuleOf(ShutterTest test) => test.LiteralMarks ? ReferenceRule.LiteralMark : ReferenceRule.TrueBinary;

    public static SpeedLimits LimitsOf(ShutterTest test) => new(
        LimitsName(test), test.SlowLimitStops, test.FastLimitStops, test.LimitBoundarySeconds,
        test.LimitProvenance.Length > 0 ? test.LimitProvenance : "The workshop's own limits.");

    /// <summary>Figures of the readings that count; null without any.</summary>
    public static SpeedFigures? Of(ShutterTest test, MarkedSpeed mark, IEnumerable<Reading> readings)
    {
        var counted = readings.Where(reading => reading.StruckOutReason is null).ToList();
        if (counted.Count == 0)
            return null;
        var seconds = counted.Select(reading => reading.Seconds).ToArray();
        return SpeedFigures.For(mark, seconds, RuleOf(test), LimitsOf(test), InstrumentOf(test, counted));
    }

    /// <summary>The rules in words, as they stand under the table.</summary>
    public static string Words(ShutterTest test, CultureInfo culture)
    {
        var against = test.LiteralMarks ? "Marks are read literally." : "Marks stand for the power of two behind them: 1/125 is 1/128 s.";
        return $"Limits {LimitsName(test)} ({TimeText.Photographic(test.LimitBoundarySeconds, culture)} and slower, and faster). {against} "
            + "A verdict is proven where the 95 % uncertainty of the mean does not reach across the limit.";
    }

    /// <summary>A mark's row, before and after; null for a mark without a time.</summary>
    public static ShutterRowFacts? Row(MarkedSpeed mark, ShutterTest? before, ShutterTest? after)
    {
        var (was, now) = (Measured.Of(before, mark), Measured.Of(after, mark));
        var any = now?.Figures ?? was?.Figures;
        if (any?.ReferenceSeconds is not { } reference)
            return null;
        return new ShutterRowFacts
        {
            MarkedSpeed = Shown(mark),
            ReferenceSeconds = reference,
            LowerLimitStops = -any.LimitStops,
            UpperLimitStops = any.LimitStops,
            AsReceived = Facts(was),
            AfterService = Facts(now),
        };
    }

    /// <summary>One mark's readings in one session, with their figures.</summary>
    private sealed record Measured(SpeedFigures Figures, IReadOnlyList<Reading> Readings)
    {
        public static Measured? Of(ShutterTest? test, MarkedSpeed mark)
        {
            var readings = test?.Readings.Where(reading => reading.MarkedSpeed == mark.Text).ToList();
            return readings is not null && ShutterFigures.Of(test!, mark, readings) is { } figures ? new Measured(figures, readings) : null;
        }
    }

    /// <summary>Adds what only recordings know, and what the uncertainty is made of.</summary>
    public static SpeedFiguresFacts WithReadings(SpeedFiguresFacts facts, SpeedFigures figures, IReadOnlyList<Reading> readings) => facts with
    {
        OpeningMilliseconds = Mean(readings, reading => reading.OpeningSeconds),
        ClosingMilliseconds = Mean(readings, reading => reading.ClosingSeconds),
        Meaning = MeaningOf(readings),
        Terms = [.. (figures.Uncertainty?.Terms ?? []).Select(term => new UncertaintyTermFacts(SignalWords.Name(term.Source.ToString()), term.StandardUncertainty))],
    };

    /// <summary>As a photographer writes the mark: ½ for 1/2, 1 s for 1.</summary>
    public static string Shown(MarkedSpeed mark) => mark.Text switch
    {
        "1" => "1 s",
        "1/2" => "½",
        "1/4" => "¼",
        var text => text,
    };

    private static string LimitsName(ShutterTest test) =>
        string.Create(CultureInfo.CurrentCulture, $"±{test.SlowLimitStops:0.##} / ±{test.FastLimitStops:0.##} stop");

    /// <summary>The stated step, else the coarsest last digit as typed; a recording brings its own sample and noise. A unit written once
    /// for a whole list is not in each reading's own text, so its step is scaled by what the reading turned out to be.</summary>
    public static TimingInstrument InstrumentOf(ShutterTest test, IReadOnlyList<Reading> readings)
    {
        var (step, trigger) = (0.0, 0.0);
        foreach (var reading in readings)
        {
            trigger = Math.Max(trigger, reading.TriggerSeconds ?? 0);
            if (reading.StepSeconds is { } sample)
                step = Math.Max(step, sample);
            else if (test.ResolutionSeconds is { } stated)
                step = Math.Max(step, stated);
            else if (ReadingText.Parse(reading.Typed, CultureInfo.CurrentCulture).Reading is { } typed)
                step = Math.Max(step, typed.StepSeconds * (reading.Seconds / typed.Seconds));
        }

        return new TimingInstrument(step, trigger);
    }

    /// <summary>What the times of one speed mean, where they all mean the same.</summary>
    private static TimeMeaning? MeaningOf(IReadOnlyList<Reading> readings)
    {
        var kinds = readings.Where(reading => reading.StruckOutReason is null).Select(reading => reading.Kind).Distinct().ToList();
        return kinds is not [var kind] ? null : kind switch
        {
            ReadingKind.Effective => TimeMeaning.Effective,
            ReadingKind.HalfWidth => TimeMeaning.HalfWidth,
            _ => TimeMeaning.Typed,
        };
    }

    /// <summary>Of the readings that count and have it, in milliseconds.</summary>
    private static double? Mean(IEnumerable<Reading> readings, Func<Reading, double?> pick)
    {
        var all = readings.Where(reading => reading.StruckOutReason is null).Select(pick).OfType<double>().ToList();
        return all.Count == 0 ? null : all.Average() * 1000;
    }

    private static SpeedFiguresFacts? Facts(Measured? measured) => measured?.Figures is not { ErrorStops: { } error } figures ? null : WithReadings(new SpeedFiguresFacts
    {
        Count = figures.Seconds.Count,
        MeanSeconds = figures.Seconds.Mean,
        DeviationSeconds = figures.Seconds.StandardDeviation,
        ExpandedUncertaintySeconds = figures.Uncertainty?.Expanded,
        ErrorStops = error,
        // Half the bar that is drawn: the longer half, so that it never looks better than it is.
        UncertaintyStops = figures.UncertaintyBelowStops ?? figures.UncertaintyAboveStops,
        SpreadStops = figures.SpreadStops,
        Verdict = figures.Verdict switch
        {
            Verdict.Within => LimitVerdict.Within,
            Verdict.WithinNotProven => LimitVerdict.WithinNotProven,
            Verdict.OutsideNotProven => LimitVerdict.OutsideNotProven,
            Verdict.Outside => LimitVerdict.Outside,
            _ => null,
        },
    }, figures, measured.Readings);
}
