using System.Numerics;

namespace RepairShop.Measurement.Signals.Finding;

/// <summary>
/// A channel in short blocks of about a quarter of a millisecond, by their means: short enough to see every blade, few enough that the
/// search costs next to nothing beside reading the samples once.
/// </summary>
internal sealed class Blocks
{
    private const double BlockSeconds = 0.00025;

    private Blocks(int length, double sampleRateHz, float[] means) => (Length, SampleRateHz, Means) = (length, sampleRateHz, means);

    /// <summary>Samples in a block, 1 or more.</summary>
    public int Length { get; }

    public double SampleRateHz { get; }

    public float[] Means { get; }

    public int Count => Means.Length;

    /// <summary>Samples in all blocks.</summary>
    public double Samples => (double)Count * Length;

    public double RateHz => SampleRateHz / Length;

    /// <summary>Whole blocks in a time, 1 or more.</summary>
    public int In(double seconds) => Math.Max(1, (int)Math.Round(seconds * RateHz));

    /// <summary>Centre of a block in samples from the recording's beginning.</summary>
    public double CentreSample(double block) => block * Length + (Length - 1) / 2.0;

    public static Blocks Of(ReadOnlySpan<float> samples, double sampleRateHz)
    {
        var length = Math.Max(1, (int)Math.Round(BlockSeconds * sampleRateHz));
        var means = new float[samples.Length / length];
        for (var block = 0; block < means.Length; block++)
            means[block] = Sum(samples.Slice(block * length, length)) / length;
        return new(length, sampleRateHz, means);
    }

    private static float Sum(ReadOnlySpan<float> samples)
    {
        var index = 0;
        var sum = 0f;
        if (samples.Length >= Vector<float>.Count)
        {
            var sums = Vector<float>.Zero;
            for (; index <= samples.Length - Vector<float>.Count; index += Vector<float>.Count)
                sums += new Vector<float>(samples[index..]);
            sum = Vector.Sum(sums);
        }

        for (; index < samples.Length; index++) sum += samples[index];
        return sum;
    }
}
