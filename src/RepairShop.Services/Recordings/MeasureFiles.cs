using RepairShop.Domain.Results;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Measurement.Signals;

namespace RepairShop.Services.Recordings;

/// <summary>From a file's name to its figures, without a database: what the command <c>measure</c> does.</summary>
public static class MeasureFiles
{
    /// <param name="path">Of a WAV file or an oscilloscope's CSV.</param>
    /// <param name="rig">How all files were recorded.</param>
    /// <param name="marked">What the dial said, for figures of the speed; null for none.</param>
    public static MeasuredFile Measure(string path, Rig rig, MarkedSpeed? marked)
    {
        ArgumentNullException.ThrowIfNull(rig);
        var read = RecordingReader.Read(path);
        if (!read.IsDone)
            return Refused(path, read.Failure);
        var recording = read.Value.Recording;
        return RigFit.WhyNot(rig, recording.ChannelCount) is { } unfit
            ? Refused(path, unfit) with { SampleRateHz = recording.SampleRateHz, DurationSeconds = recording.DurationSeconds }
            : Of(path, RecordingAnalysis.Analyse(recording, rig), rig, marked);
    }

    private static string CouplingName(InputCoupling kind) => kind == InputCoupling.Auto ? "unknown" : SignalWords.Name(kind.ToString());

    private static MeasuredFile Refused(string path, Failure why) => new(path, SignalWords.Name(why.GetType().Name)) { Message = why.Message };

    private static MeasuredFile Of(string path, AnalysisResult result, Rig rig, MarkedSpeed? marked) => new(path, SignalWords.Name(result.Outcome.ToString()))
    {
        Message = result.Outcome == Outcome.Ok ? null : SignalWords.Of(result.Outcome),
        AnalysisVersion = result.AnalysisVersion,
        SampleRateHz = result.SampleRateHz,
        DurationSeconds = result.DurationSeconds,
        Coupling = new MeasuredCoupling(CouplingName(result.Coupling.Kind), result.Coupling.TimeConstantSeconds),
        Warnings = [.. result.Warnings.Select(warning => SignalWords.Name(warning.GetType().Name)).Distinct()],
        WarningTexts = [.. result.Warnings.Select(SignalWords.Of)],
        Exposures = [.. result.Exposures.Select(Of)],
        Refused = [.. result.Refused.Select(refused => new MeasuredRefusal(refused.Number, refused.AtSeconds, SignalWords.Name(refused.Reason.ToString())))],
        FocalPlane = [.. result.FocalPlane.Select(Of)],
        Flash = [.. result.Flash.Select(flash => new MeasuredFlash(
            flash.AtSeconds, flash.ContactToFullyOpenSeconds, flash.ContactToClosingSeconds, flash.HoldSeconds, flash.Bounces))],
        Speed = marked is null ? null : Speed(result.Exposures, rig, marked),
    };

    private static MeasuredExposure Of(ExposureFigures one) => new(
        one.Number, one.StartSeconds, one.Width50Seconds, one.EffectiveSeconds, one.EffectiveBy is { } by ? SignalWords.Name(by.ToString()) : null,
        one.TotalSeconds, one.OpeningSeconds, one.DwellSeconds, one.ClosingSeconds, one.Efficiency,
        [.. one.Bounces.Select(bounce => new MeasuredBounce(bounce.DelaySeconds, bounce.Level, bounce.DurationSeconds))],
        [.. one.Flags.Select(flag => SignalWords.Name(flag.ToString()))], one.Width50StandardUncertaintySeconds);

    private static MeasuredFocalPlane Of(FocalPlaneFigures one) => new(
        one.AtSeconds, Of(one.FirstCurtain), Of(one.SecondCurtain),
        [.. one.Points.Select(point => new MeasuredPoint(RigWords.Name(point.Role), point.PositionMm, point.Seconds, point.SlitWidthMm))],
        one.NonUniformity, one.NonUniformityStops, one.IsCapping, one.WholePictureSeconds);

    private static MeasuredCurtain? Of(CurtainRun? run) => run is null ? null : new(run.TravelSeconds, run.WholeFrameSeconds, run.SpeedMmPerSecond);

    private static MeasuredSpeed? Speed(IReadOnlyList<ExposureFigures> all, Rig rig, MarkedSpeed marked)
    {
        var exposures = Sample(all, rig.ReferenceExposure);
        if (exposures.Count == 0)
            return null;
        var time = ExposureTimes.Of(exposures);
        var figures = SpeedFigures.For(
            marked, time.Seconds, SpeedSeries.RuleFor([marked], ReferenceRule.TrueBinary), SpeedLimits.Targets, time.Instrument);
        return new MeasuredSpeed(
            marked.Text, figures.ReferenceSeconds, time.AreEffective ? "effective" : "width50", [.. exposures.Select(one => one.Number)],
            figures.Seconds.Count, figures.Seconds.Mean, figures.Seconds.StandardDeviation, figures.Seconds.Minimum, figures.Seconds.Maximum,
            figures.Uncertainty?.Expanded, figures.Uncertainty?.CoverageFactor,
            [.. (figures.Uncertainty?.Terms ?? []).Select(term => new MeasuredTerm(SignalWords.Name(term.Source.ToString()), term.StandardUncertainty))],
            figures.ErrorStops, figures.ErrorFromStops, figures.ErrorToStops, figures.SpreadStops, figures.LimitStops, SignalWords.Name(figures.Verdict.ToString()));
    }

    /// <summary>The reference exposure was made at a slower speed: more than a stop from the others' middle, it is not one of them.</summary>
    private static List<ExposureFigures> Sample(IReadOnlyList<ExposureFigures> all, int? reference)
    {
        var others = all.Where(one => one.Number != reference).OrderBy(one => one.Width50Seconds).ToList();
        if (others.Count == 0 || all.FirstOrDefault(one => one.Number == reference) is not { } open)
            return [.. all];
        var middle = others[others.Count / 2].Width50Seconds;
        return [.. Math.Abs(Stops.Error(open.Width50Seconds, middle)) > 1 ? all.Where(one => one != open) : all];
    }
}
