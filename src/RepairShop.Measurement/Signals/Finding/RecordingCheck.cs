namespace RepairShop.Measurement.Signals.Finding;

/// <summary>What can be said against a channel before looking for light in it.</summary>
internal static class RecordingCheck
{
    /// <summary>Shorter than this holds no exposure with quiet parts around it: 3 ms, and 32 samples.</summary>
    private const double LeastSeconds = 0.003;

    private const int LeastSamples = 32;

    public static Outcome? Fault(ReadOnlySpan<float> samples, double sampleRateHz)
    {
        if (samples.IsEmpty) return Outcome.NoSamples;
        bool finite = true, constant = true;
        var first = samples[0];
        foreach (var sample in samples)
        {
            finite &= float.IsFinite(sample);
            constant &= sample == first;
        }

        if (!finite) return Outcome.NotFinite;
        if (samples.Length < Math.Max(LeastSamples, LeastSeconds * sampleRateHz)) return Outcome.TooShort;
        return constant ? Outcome.Silent : null;
    }
}
