using RepairShop.Domain.Checks;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Recordings;

namespace RepairShop.Services.Recordings;

/// <summary>A file that came in, to be analysed and kept.</summary>
/// <param name="FileName">As it was called where it came from.</param>
/// <param name="Content">Can be positioned; left open.</param>
/// <param name="Rig">How it was recorded.</param>
/// <param name="Marks">One marked speed for all exposures, or one for each, in order; empty to choose later.</param>
/// <param name="Instrument">What a new shutter test says it was measured with.</param>
public sealed record RecordingSent(string FileName, Stream Content, RigFacts Rig, string Marks, string Instrument)
{
    /// <summary>Made by whoever sends it, so that the same release sent twice is kept once.</summary>
    public Guid? Id { get; init; }

    /// <summary>Set for what the capture page sends.</summary>
    public Guid? CaptureSession { get; init; }

    public int LostBlocks { get; init; }
}

/// <param name="TestId">The shutter test its readings went to.</param>
/// <param name="Assigned">How many exposures became readings.</param>
public sealed record RecordingKept(Guid Id, Guid TestId, int Exposures, int Assigned);

/// <summary>A recording in a list.</summary>
/// <param name="RecordedAt">On the workshop's wall.</param>
public sealed record RecordingLine(Guid Id, string FileName, RecordingKind Kind, DateTimeOffset RecordedAt, double DurationSeconds, int Exposures, int Counted);

/// <summary>The page of one recording.</summary>
/// <param name="RecordedAt">On the workshop's wall.</param>
/// <param name="IsOld">Whether a newer analysis is there.</param>
/// <param name="Dial">The timed marks of the camera's dial, as text and as shown.</param>
public sealed record RecordingView(
    Guid Id, Guid TestId, Phase Phase, string FileName, RecordingKind Kind, DateTimeOffset RecordedAt, string RecordedBy, double SampleRateHz,
    double DurationSeconds, int Channels, long Bytes, RigFacts Rig, string AnalysisVersion, bool IsOld, RecordingSummary Summary, int LostBlocks,
    IReadOnlyList<ExposureLine> Exposures, IReadOnlyList<(string Mark, string Shown)> Dial, uint Version);

/// <summary>One exposure with what it counts for.</summary>
/// <param name="Mark">The marked speed its reading stands at; null when it has none.</param>
/// <param name="ReadingId">Null when it has no reading.</param>
public sealed record ExposureLine(ExposureSummary Figures, string? Mark, Guid? ReadingId, string? StruckOutReason);

/// <summary>One release on the capture page.</summary>
public sealed record ReleaseLine(Guid RecordingId, Guid ReadingId, string Shown, ExposureSummary Figures, IReadOnlyList<NamedText> Warnings, string? StruckOutReason);

/// <summary>The signals of a repair before and after, speed by speed.</summary>
public sealed record SignalsView(IReadOnlyList<SpeedTraceFacts> Traces, IReadOnlyList<ShutterRowFacts> Rows);
