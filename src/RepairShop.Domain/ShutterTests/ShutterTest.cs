using RepairShop.Domain.Checks;

namespace RepairShop.Domain.ShutterTests;

/// <summary>One measuring session of a shutter, with the rules in force that day frozen beside it.</summary>
public sealed class ShutterTest
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    public Phase Phase { get; set; }

    public DateTimeOffset MeasuredAt { get; set; }

    public Guid MeasuredBy { get; set; }

    public string Instrument { get; set; } = "";

    /// <summary>Smallest step of the instrument, in seconds; null when not known.</summary>
    public double? ResolutionSeconds { get; set; }

    public double? RoomTemperatureCelsius { get; set; }

    public bool LiteralMarks { get; set; }

    public double SlowLimitStops { get; set; }

    public double FastLimitStops { get; set; }

    public double LimitBoundarySeconds { get; set; }

    public string LimitProvenance { get; set; } = "";

    public string Note { get; set; } = "";

    public List<Reading> Readings { get; set; } = [];

    public uint Version { get; set; }
}

/// <summary>One exposure in a shutter test: typed, or taken from a recording.</summary>
public sealed class Reading
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid ShutterTestId { get; set; }

    /// <summary>Canonical text of the mark on the dial: 1/125.</summary>
    public string MarkedSpeed { get; set; } = "";

    public int Position { get; set; }

    public ReadingKind Kind { get; set; }

    /// <summary>The exposure time the figures use, in seconds.</summary>
    public double Seconds { get; set; }

    /// <summary>What was typed, to the letter; empty for a recording.</summary>
    public string Typed { get; set; } = "";

    /// <summary>10 to 90 % opening time in seconds; from recordings only.</summary>
    public double? OpeningSeconds { get; set; }

    /// <summary>90 to 10 % closing time in seconds; from recordings only.</summary>
    public double? ClosingSeconds { get; set; }

    /// <summary>The recording it was taken from; null when typed.</summary>
    public Guid? RecordingId { get; set; }

    /// <summary>Which exposure of the recording, counted from 1; null when typed.</summary>
    public int? Exposure { get; set; }

    /// <summary>One sample of the recording, in seconds: its resolution; null when typed.</summary>
    public double? StepSeconds { get; set; }

    /// <summary>How far the recording's noise may move this time, ± in seconds; null when typed.</summary>
    public double? TriggerSeconds { get; set; }

    /// <summary>Why this reading does not count; null when it does.</summary>
    public string? StruckOutReason { get; set; }

    public DateTimeOffset ReadAt { get; set; }
}

/// <summary>What a reading's time means.</summary>
public enum ReadingKind
{
    Typed,
    HalfWidth,
    Effective,
}
