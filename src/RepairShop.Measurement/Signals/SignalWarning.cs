namespace RepairShop.Measurement.Signals;

/// <summary>Something a person should know about a recording. One record a kind, each with its figures.</summary>
/// <param name="Channel">The channel it was seen in, counted from 0.</param>
public abstract record SignalWarning(int Channel);

/// <summary>The input was overdriven.</summary>
/// <param name="Channel">The channel, counted from 0.</param>
/// <param name="AtSeconds">Where it first happened, in seconds from the recording's beginning.</param>
/// <param name="Samples">How many samples stand at the ceiling, 1 or more.</param>
/// <param name="Level">The ceiling, in the recording's unit, with its sign.</param>
public sealed record Clipping(int Channel, double AtSeconds, int Samples, double Level) : SignalWarning(Channel);

/// <summary>How a block of samples went wrong.</summary>
public enum BlockFault
{
    /// <summary>A stretch of one constant value stands in place of, or between, the true samples.</summary>
    Silence,

    /// <summary>The same samples come twice.</summary>
    Repeat,

    /// <summary>The signal jumps from one sample to the next, as if a block were missing.</summary>
    Jump,
}

/// <summary>The input lost, inserted or repeated a block of samples: times across it are wrong by about its length.</summary>
/// <param name="Channel">The channel, counted from 0.</param>
/// <param name="AtSeconds">Where, in seconds from the recording's beginning.</param>
/// <param name="LengthSeconds">How long the block is, in seconds; null for a jump, whose length nobody can see.</param>
/// <param name="Fault">What was seen.</param>
public sealed record DroppedBlock(int Channel, double AtSeconds, double? LengthSeconds, BlockFault Fault) : SignalWarning(Channel);

/// <summary>
/// The lamp flickers with the mains while the shutter is open. ISO 516:2019 allows a test light ±5 %; above that depth the width and above all
/// the effective time depend on the moment of release.
/// </summary>
/// <param name="Channel">The channel, counted from 0.</param>
/// <param name="FrequencyHz">100 or 120 Hz.</param>
/// <param name="Depth">Amplitude (half of peak to peak) over the mean open level, 0 to 1.</param>
public sealed record LampRipple(int Channel, double FrequencyHz, double Depth) : SignalWarning(Channel)
{
    /// <summary>The depth above which the light is not steady enough to trust: ±5 % (ISO 516:2019, light fluctuation of the test set).</summary>
    public const double Limit = 0.05;

    /// <summary>Whether the ripple is deeper than <see cref="Limit"/>.</summary>
    public bool IsStrong => Depth > Limit;
}

/// <summary>Mains hum was found in the quiet parts and taken out.</summary>
/// <param name="Channel">The channel, counted from 0.</param>
/// <param name="FrequencyHz">Its ground frequency: about 50 or 60 Hz.</param>
/// <param name="Share">Amplitude of the ground wave and its harmonics together over the open level, 0 or more.</param>
public sealed record MainsHum(int Channel, double FrequencyHz, double Share) : SignalWarning(Channel);

/// <summary>An exposure rises little above the noise: its figures are coarse.</summary>
/// <param name="Channel">The channel, counted from 0.</param>
/// <param name="Exposure">Its number, counted from 1.</param>
/// <param name="SignalToNoiseDecibels">Open level over the standard deviation of the noise, 20·log10, in dB.</param>
public sealed record LittleLight(int Channel, int Exposure, double SignalToNoiseDecibels) : SignalWarning(Channel);

/// <summary>Two exposures follow each other too closely for both to have a quiet part of their own.</summary>
/// <param name="Channel">The channel, counted from 0.</param>
/// <param name="AtSeconds">Where the second one begins, in seconds from the recording's beginning.</param>
/// <param name="GapSeconds">From the first one's closing to the second one's opening, in seconds, 0 or more.</param>
public sealed record TooClose(int Channel, double AtSeconds, double GapSeconds) : SignalWarning(Channel);

/// <summary>The recording begins or ends in the middle of an exposure, which is left out.</summary>
/// <param name="Channel">The channel, counted from 0.</param>
/// <param name="AtSeconds">Its only edge, in seconds from the recording's beginning.</param>
public sealed record CutOff(int Channel, double AtSeconds) : SignalWarning(Channel);

/// <summary>Something in the recording is neither an exposure nor noise and was left out.</summary>
/// <param name="Channel">The channel, counted from 0.</param>
/// <param name="AtSeconds">Where, in seconds from the recording's beginning.</param>
public sealed record Disturbance(int Channel, double AtSeconds) : SignalWarning(Channel);

/// <summary>The rig names a reference exposure that is not there or never rests open; effective times could not be taken from it.</summary>
/// <param name="Channel">The channel, counted from 0.</param>
/// <param name="Exposure">The number the rig gives, counted from 1.</param>
public sealed record ReferenceMissing(int Channel, int Exposure) : SignalWarning(Channel);
