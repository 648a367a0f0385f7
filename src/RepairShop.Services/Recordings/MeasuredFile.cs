using System.Text.Json;
using System.Text.Json.Serialization;

namespace RepairShop.Services.Recordings;

/// <summary>One file's figures as the command <c>measure</c> prints them: seconds, hertz and ratios in full precision, null where there is no figure.</summary>
/// <param name="File">As it was named.</param>
/// <param name="Outcome"><c>ok</c>, or the reason why there are no figures: notAShutter, fileMissing.</param>
public sealed record MeasuredFile(string File, string Outcome)
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        DefaultIgnoreCondition = JsonIgnoreCondition.Never,
    };

    /// <summary>The outcome in a sentence; null when ok.</summary>
    public string? Message { get; init; }

    public string? AnalysisVersion { get; init; }

    public double? SampleRateHz { get; init; }

    public double? DurationSeconds { get; init; }

    public MeasuredCoupling? Coupling { get; init; }

    public IReadOnlyList<string> Warnings { get; init; } = [];

    /// <summary>Each warning in a sentence.</summary>
    public IReadOnlyList<string> WarningTexts { get; init; } = [];

    public IReadOnlyList<MeasuredExposure> Exposures { get; init; } = [];

    /// <summary>Exposures that were found but gave no figures.</summary>
    public IReadOnlyList<MeasuredRefusal> Refused { get; init; } = [];

    public IReadOnlyList<MeasuredFocalPlane> FocalPlane { get; init; } = [];

    public IReadOnlyList<MeasuredFlash> Flash { get; init; } = [];

    /// <summary>Figures of the speed given with <c>--marked</c>; null without it, or without an exposure.</summary>
    public MeasuredSpeed? Speed { get; init; }

    public static string Write(IReadOnlyList<MeasuredFile> files) => JsonSerializer.Serialize(files, Json);
}

/// <param name="Kind"><c>ac</c>, <c>dc</c>, or <c>unknown</c> where nothing in the recording tells.</param>
public sealed record MeasuredCoupling(string Kind, double? TimeConstantSeconds);

public sealed record MeasuredExposure(
    int Number, double StartSeconds, double Width50Seconds, double? EffectiveSeconds, string? EffectiveBy, double TotalSeconds, double OpeningSeconds,
    double DwellSeconds, double ClosingSeconds, double? Efficiency, IReadOnlyList<MeasuredBounce> Bounces, IReadOnlyList<string> Flags,
    double Width50StandardUncertaintySeconds);

public sealed record MeasuredBounce(double DelaySeconds, double Level, double DurationSeconds);

public sealed record MeasuredRefusal(int Number, double AtSeconds, string Reason);

public sealed record MeasuredCurtain(double TravelSeconds, double WholeFrameSeconds, double SpeedMmPerSecond);

public sealed record MeasuredPoint(string Channel, double PositionMm, double Seconds, double? SlitWidthMm);

public sealed record MeasuredFocalPlane(
    double AtSeconds, MeasuredCurtain? FirstCurtain, MeasuredCurtain? SecondCurtain, IReadOnlyList<MeasuredPoint> Points, double? NonUniformity,
    double? NonUniformityStops, bool IsCapping, double WholePictureSeconds);

public sealed record MeasuredFlash(double AtSeconds, double ContactToFullyOpenSeconds, double ContactToClosingSeconds, double? HoldSeconds, int Bounces);

/// <param name="Time"><c>effective</c> where each exposure has an effective time, else <c>width50</c>.</param>
/// <param name="Exposures">Numbers of the exposures that went in.</param>
/// <param name="Terms">One standard uncertainty a source, in seconds.</param>
public sealed record MeasuredSpeed(
    string Marked, double? ReferenceSeconds, string Time, IReadOnlyList<int> Exposures, int Count, double MeanSeconds, double? StandardDeviationSeconds,
    double MinimumSeconds, double MaximumSeconds, double? ExpandedUncertaintySeconds, double? CoverageFactor, IReadOnlyList<MeasuredTerm> Terms,
    double? ErrorStops, double? ErrorFromStops, double? ErrorToStops, double? SpreadStops, double? LimitStops, string Verdict);

public sealed record MeasuredTerm(string Source, double StandardUncertaintySeconds);
