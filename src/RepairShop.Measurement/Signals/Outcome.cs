namespace RepairShop.Measurement.Signals;

/// <summary>Whether a recording gave figures, or why not.</summary>
public enum Outcome
{
    /// <summary>At least one exposure has figures.</summary>
    Ok,

    /// <summary>The recording has no samples at all.</summary>
    NoSamples,

    /// <summary>Too few samples to hold an exposure and its surroundings.</summary>
    TooShort,

    /// <summary>A sample is NaN or infinite.</summary>
    NotFinite,

    /// <summary>Nothing but one constant value: no sensor, or a muted input.</summary>
    Silent,

    /// <summary>Only the noise of the input: no light came, or nobody released the shutter.</summary>
    NoExposure,

    /// <summary>Only mains hum.</summary>
    HumOnly,

    /// <summary>Something sounds, but it opens and closes nothing: speech, music, clicks, a thump.</summary>
    NotAShutter,

    /// <summary>There are exposures, but the input was overdriven in each: less light or less gain.</summary>
    Clipped,

    /// <summary>There may be exposures, but they hardly rise above the noise: more light or more gain.</summary>
    TooLittleLight,

    /// <summary>The input lost, inserted or repeated blocks of samples in every exposure.</summary>
    DroppedBlock,

    /// <summary>The exposures follow each other too closely to be told apart.</summary>
    TooClose,

    /// <summary>The recording begins or ends in the middle of its only exposure.</summary>
    CutOff,
}
