namespace RepairShop.Domain.Recordings;

/// <summary>
/// The raw light-sensor signal behind readings: its file, how it was recorded, and what the analysis of its day said. The file never changes;
/// a better analysis replaces what was said, and strikes out the readings that came from the old one.
/// </summary>
public sealed class KeptRecording
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    public Guid ShutterTestId { get; set; }

    public RecordingKind Kind { get; set; }

    /// <summary>As it was called where it came from.</summary>
    public string FileName { get; set; } = "";

    /// <summary>SHA-256 of the raw file in the file store, lower-case hex.</summary>
    public string FileHash { get; set; } = "";

    public long Bytes { get; set; }

    public double SampleRateHz { get; set; }

    public double DurationSeconds { get; set; }

    public int Channels { get; set; }

    /// <summary>How it was recorded, as JSON: <see cref="RigFacts"/>.</summary>
    public string Rig { get; set; } = "{}";

    public string AnalysisVersion { get; set; } = "";

    /// <summary>What the analysis said, as JSON, with enough of each exposure's signal to draw it.</summary>
    public string Result { get; set; } = "{}";

    /// <summary>One stay at the capture page: same lamp, same gain, so that a fully open level may be carried. Null for uploaded files.</summary>
    public Guid? CaptureSession { get; set; }

    /// <summary>Blocks of sound the browser knows it lost while capturing.</summary>
    public int LostBlocks { get; set; }

    public Guid RecordedBy { get; set; }

    public DateTimeOffset RecordedAt { get; set; }

    public DateTimeOffset AnalysedAt { get; set; }

    public uint Version { get; set; }
}
