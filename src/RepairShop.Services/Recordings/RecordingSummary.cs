using System.Text.Json;
using RepairShop.Domain.Paperwork;
using RepairShop.Measurement.Signals;

namespace RepairShop.Services.Recordings;

/// <summary>What the analysis said of a recording, as it is kept beside it: every figure, and enough of each exposure's signal to draw it.</summary>
public sealed record RecordingSummary
{
    public required Outcome Outcome { get; init; }

    public required InputCoupling Coupling { get; init; }

    public double? TimeConstantSeconds { get; init; }

    /// <summary>Fully open level that other recordings of the same lamp and gain may carry.</summary>
    public OpenLevel? OpenLevel { get; init; }

    public IReadOnlyList<NamedText> Warnings { get; init; } = [];

    public IReadOnlyList<ExposureSummary> Exposures { get; init; } = [];

    public IReadOnlyList<RefusedExposure> Refused { get; init; } = [];

    public IReadOnlyList<FocalPlaneFigures> FocalPlane { get; init; } = [];

    public IReadOnlyList<FlashFigures> Flash { get; init; } = [];

    public static RecordingSummary Of(AnalysisResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return new RecordingSummary
        {
            Outcome = result.Outcome,
            Coupling = result.Coupling.Kind,
            TimeConstantSeconds = result.Coupling.TimeConstantSeconds,
            OpenLevel = result.Main?.OpenLevel,
            Warnings = [.. result.Warnings.Select(warning => new NamedText(SignalWords.Name(warning.GetType().Name), SignalWords.Of(warning)))],
            Exposures = [.. result.Exposures.Select(ExposureSummary.Of)],
            Refused = result.Refused,
            FocalPlane = result.FocalPlane,
            Flash = result.Flash,
        };
    }

    public string Write() => JsonSerializer.Serialize(this, PaperJson.Options);

    public static RecordingSummary Read(string json) =>
        JsonSerializer.Deserialize<RecordingSummary>(json, PaperJson.Options) ?? throw new JsonException("A recording's kept result is empty.");
}

/// <summary>A warning by name and in the words of its day.</summary>
public sealed record NamedText(string Name, string Text);

/// <summary>One exposure's figures, and its signal thinned out for drawing.</summary>
public sealed record ExposureSummary
{
    public required int Number { get; init; }

    public required Crossings Crossings { get; init; }

    public required double DwellSeconds { get; init; }

    public double? EffectiveSeconds { get; init; }

    public OpenLevelSource? EffectiveBy { get; init; }

    public double? Efficiency { get; init; }

    public IReadOnlyList<Bounce> Bounces { get; init; } = [];

    public IReadOnlyList<ExposureRemark> Flags { get; init; } = [];

    public required double StepSeconds { get; init; }

    public required double TriggerSeconds { get; init; }

    public required TraceFacts Trace { get; init; }

    public double Width50Seconds => Crossings.Closing50Seconds - Crossings.Opening50Seconds;

    public double OpeningSeconds => Crossings.Opening90Seconds - Crossings.Opening10Seconds;

    public double ClosingSeconds => Crossings.Closing10Seconds - Crossings.Closing90Seconds;

    public double TotalSeconds => Crossings.CompleteClosingSeconds - Crossings.FirstOpeningSeconds;

    /// <summary>What becomes the reading: the effective time where there is one, else the 50 % width.</summary>
    public double ReadingSeconds => EffectiveSeconds ?? Width50Seconds;

    public static ExposureSummary Of(ExposureFigures figures)
    {
        ArgumentNullException.ThrowIfNull(figures);
        return new ExposureSummary
        {
            Number = figures.Number,
            Crossings = figures.Crossings,
            DwellSeconds = figures.DwellSeconds,
            EffectiveSeconds = figures.EffectiveSeconds,
            EffectiveBy = figures.EffectiveBy,
            Efficiency = figures.Efficiency,
            Bounces = figures.Bounces,
            Flags = figures.Flags,
            StepSeconds = figures.Instrument.ResolutionSeconds,
            TriggerSeconds = figures.Instrument.TriggerHalfWidthSeconds,
            Trace = Thinning.Of(figures),
        };
    }
}
