namespace RepairShop.Domain.Recordings;

/// <summary>How a recording came in.</summary>
public enum RecordingKind
{
    Wav,
    Csv,
    Captured,
}
