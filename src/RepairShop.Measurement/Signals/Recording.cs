namespace RepairShop.Measurement.Signals;

/// <summary>
/// What came out of a sound input or an oscilloscope: one or more channels of samples taken at one rate. The samples are held in single
/// precision (24 bits, better than any sound input) and are not copied, so a recording costs four bytes a sample.
/// A bad recording is data, not misuse: no samples, NaN and the like are accepted here and named by <see cref="RecordingAnalysis"/>.
/// </summary>
public sealed class Recording
{
    private readonly float[][] channels;

    /// <summary>A recording of one or more channels.</summary>
    /// <param name="sampleRateHz">Samples a second of every channel, above 0.</param>
    /// <param name="channels">One array a channel, all of one length, in any unit; kept, not copied: don't change them afterwards.</param>
    /// <param name="fullScale">
    /// The largest value the input can give, above 0, in the samples' unit: 1 for sound. Null where nobody knows, as for an oscilloscope.
    /// Clipping below full scale is found as well, by its flat tops.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A rate or full scale that is not above 0 and finite; no channel.</exception>
    /// <exception cref="ArgumentException">Channels of different lengths.</exception>
    public Recording(double sampleRateHz, IReadOnlyList<float[]> channels, double? fullScale = 1)
    {
        ArgumentNullException.ThrowIfNull(channels);
        SampleRateHz = Guard.Positive(sampleRateHz);
        FullScale = fullScale is { } scale ? Guard.Positive(scale, nameof(fullScale)) : null;
        if (channels.Count == 0) throw new ArgumentOutOfRangeException(nameof(channels), "A recording has at least one channel.");
        if (channels.Any(channel => channel.Length != channels[0].Length))
            throw new ArgumentException("All channels must be of one length.", nameof(channels));
        this.channels = [.. channels];
    }

    /// <summary>Samples a second, above 0.</summary>
    public double SampleRateHz { get; }

    /// <summary>The largest value the input can give, in the samples' unit; null where nobody knows.</summary>
    public double? FullScale { get; }

    /// <summary>How many channels, 1 or more.</summary>
    public int ChannelCount => channels.Length;

    /// <summary>Samples of each channel, 0 or more.</summary>
    public int SampleCount => channels[0].Length;

    /// <summary>How long it is, in seconds, 0 or more.</summary>
    public double DurationSeconds => SampleCount / SampleRateHz;

    /// <summary>A recording of a single channel of sound.</summary>
    /// <param name="sampleRateHz">Samples a second, above 0.</param>
    /// <param name="samples">The samples, full scale ±1; kept, not copied.</param>
    /// <exception cref="ArgumentOutOfRangeException">A rate that is not above 0 and finite.</exception>
    public static Recording Mono(double sampleRateHz, float[] samples) => new(sampleRateHz, [samples]);

    /// <summary>The samples of one channel, in the recording's unit.</summary>
    /// <param name="index">Which channel, counted from 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such channel.</exception>
    public ReadOnlySpan<float> Channel(int index)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, channels.Length);
        return channels[index];
    }
}
