using System.Numerics;

namespace RepairShop.Measurement.Signals.Finding;

/// <summary>
/// A channel in short blocks of about a quarter of a millisecond, by their means: short enough to see every blade, few enough that the
/// search costs next to nothing beside reading the samples once.
/// </summary>
internal sealed class Blocks
{
    private const double BlockSeconds = 0.00025;

    private Blocks(int origin, int length, double sampleRateHz, float[] means) =>
        (Origin, Length, SampleRateHz, Means) = (origin, length, sampleRateHz, means);

    /// <summary>The first block's first sample, less than a block from the recording's beginning.</summary>
    public int Origin { get; }

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
    public double CentreSample(double block) => Origin + block * Length + (Length - 1) / 2.0;

    /// <summary>A block's first sample, counted from the recording's beginning.</summary>
    public int FirstSample(int block) => Origin + block * Length;

    /// <summary>Where a sample's middle lies, in blocks.</summary>
    public double PlaceOf(int sample) => (sample - Origin + 0.5) / Length;

    public static Blocks Of(ReadOnlySpan<float> samples, double sampleRateHz) => Of(samples, sampleRateHz, 0);

    /// <summary>The same recording in blocks of which one begins at a given sample.</summary>
    public Blocks Meeting(ReadOnlySpan<float> samples, int sample) => sample % Length == Origin ? this : Of(samples, SampleRateHz, sample % Length);

    private static Blocks Of(ReadOnlySpan<float> samples, double sampleRateHz, int origin)
    {
        var length = Math.Max(1, (int)Math.Round(BlockSeconds * sampleRateHz));
        var means = new float[(samples.Length - origin) / length];
        for (var block = 0; block < means.Length; block++)
            means[block] = Sum(samples.Slice(origin + block * length, length)) / length;
        return new(origin, length, sampleRateHz, means);
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
