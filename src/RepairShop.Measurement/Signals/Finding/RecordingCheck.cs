using System.Numerics;

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
        if (!IsFinite(samples)) return Outcome.NotFinite;
        if (samples.Length < Math.Max(LeastSamples, LeastSeconds * sampleRateHz)) return Outcome.TooShort;
        return samples.IndexOfAnyExcept(samples[0]) < 0 ? Outcome.Silent : null;
    }

    /// <summary>As many samples at once as the processor takes; no comparison with NaN holds.</summary>
    private static bool IsFinite(ReadOnlySpan<float> samples)
    {
        var (greatest, index) = (new Vector<float>(float.MaxValue), 0);
        for (; index <= samples.Length - Vector<float>.Count; index += Vector<float>.Count)
            if (!Vector.LessThanOrEqualAll(Vector.Abs(new Vector<float>(samples[index..])), greatest)) return false;
        foreach (var sample in samples[index..])
            if (!float.IsFinite(sample)) return false;
        return true;
    }
}
