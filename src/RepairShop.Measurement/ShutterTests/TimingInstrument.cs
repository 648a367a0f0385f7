namespace RepairShop.Measurement.ShutterTests;

/// <summary>What the instrument itself adds to the uncertainty of a time.</summary>
public sealed record TimingInstrument
{
    /// <summary>An instrument as its maker or the workshop describes it.</summary>
    /// <param name="resolutionSeconds">Smallest step shown, in seconds, 0 or more; 0 says it is negligible.</param>
    /// <param name="triggerHalfWidthSeconds">How far the start and stop together may be off, ± in seconds, 0 or more; 0 says it is negligible.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative, NaN or infinite.</exception>
    public TimingInstrument(double resolutionSeconds, double triggerHalfWidthSeconds = 0)
    {
        ResolutionSeconds = Guard.NotNegative(resolutionSeconds);
        TriggerHalfWidthSeconds = Guard.NotNegative(triggerHalfWidthSeconds);
    }

    /// <summary>Smallest step shown, in seconds, 0 or more.</summary>
    public double ResolutionSeconds { get; }

    /// <summary>How far the start and stop together may be off, ± in seconds, 0 or more.</summary>
    public double TriggerHalfWidthSeconds { get; }

    /// <summary>
    /// An instrument nobody has described: its step is taken as the coarsest last digit among the readings as typed, and the trigger as negligible.
    /// </summary>
    /// <param name="readings">One or more readings.</param>
    /// <exception cref="ArgumentOutOfRangeException">No reading.</exception>
    public static TimingInstrument AsTyped(IReadOnlyList<TypedReading> readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        if (readings.Count == 0) throw new ArgumentOutOfRangeException(nameof(readings), "At least one reading is needed.");
        return new(readings.Max(r => r.StepSeconds));
    }
}
