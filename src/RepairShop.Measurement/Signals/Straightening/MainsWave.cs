using RepairShop.Measurement.Signals.Finding;

namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>Mains hum as a sum of a ground wave and harmonics.</summary>
/// <param name="FrequencyHz">The ground wave's frequency.</param>
/// <param name="OriginSample">Where the phases are counted from, in samples from the recording's beginning.</param>
/// <param name="Cosine">Cosine amplitude of each harmonic, the ground wave first.</param>
/// <param name="Sine">Sine amplitude of each.</param>
internal sealed record MainsWave(double FrequencyHz, double OriginSample, double[] Cosine, double[] Sine)
{
    /// <summary>All harmonics' amplitudes together, root of the sum of squares, in the signal's unit.</summary>
    public double Amplitude => Math.Sqrt(Cosine.Sum(c => c * c) + Sine.Sum(s => s * s));

    /// <summary>The factor by which a block's mean sees a wave smaller than its samples do.</summary>
    public static double BlockFactor(double frequencyHz, Blocks blocks)
    {
        var half = Math.PI * frequencyHz / blocks.SampleRateHz;
        return Math.Sin(half * blocks.Length) / (blocks.Length * Math.Sin(half));
    }

    /// <summary>Takes the wave out of block means that begin at a given block.</summary>
    public void Subtract(Span<double> values, int firstBlock, Blocks blocks) =>
        Subtract(values, blocks.CentreSample(firstBlock), blocks.Length, blocks.SampleRateHz, f => BlockFactor(f, blocks));

    /// <summary>Takes the wave out of samples that begin at a given place.</summary>
    public void Subtract(Span<double> values, double firstSample, double sampleRateHz) =>
        Subtract(values, firstSample, 1, sampleRateHz, _ => 1);

    private void Subtract(Span<double> values, double first, double stride, double sampleRateHz, Func<double, double> factor)
    {
        for (var h = 0; h < Cosine.Length; h++)
        {
            if (Cosine[h] == 0 && Sine[h] == 0) continue;
            var frequency = (h + 1) * FrequencyHz;
            var gain = factor(frequency);
            var step = 2 * Math.PI * frequency / sampleRateHz * stride;
            var phase = 2 * Math.PI * frequency / sampleRateHz * (first - OriginSample);
            // A rotation instead of a sine per sample; over a window its rounding stays below 1e-12.
            var (turnSin, turnCos) = Math.SinCos(step);
            var (sin, cos) = Math.SinCos(phase);
            for (var i = 0; i < values.Length; i++)
            {
                values[i] -= gain * (Cosine[h] * cos + Sine[h] * sin);
                (cos, sin) = (cos * turnCos - sin * turnSin, sin * turnCos + cos * turnSin);
            }
        }
    }
}
