using RepairShop.Measurement.Signals.Finding;

namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>
/// Where an exposure's signal is cut out of the recording. Everything is counted from the sample of its steepest change, as the blocks of the search are
/// from that of the first edge: silence put before a recording must change no time.
/// </summary>
internal sealed class Placement
{
    private const double MarginSeconds = 0.012;
    private const double QuantumSeconds = 0.004;
    private const double EdgeQuantumSeconds = 0.001;
    private const double SideSeconds = 0.001;

    /// <summary>How much before the opening and after the closing tells the noise.</summary>
    private const double NoiseSeconds = 0.016;

    private readonly int opening;
    private readonly int closing;
    private readonly int noise;

    public Placement(ReadOnlySpan<float> samples, QuietWindow window)
    {
        var (candidate, blocks, rate) = (window.Candidate, window.Blocks, window.Blocks.SampleRateHz);
        int In(double seconds) => Math.Max(1, (int)Math.Round(seconds * rate));
        (opening, closing) = (Steepest(samples, blocks, candidate.Opening), Steepest(samples, blocks, candidate.Closing));
        noise = In(NoiseSeconds);
        var (margin, quantum, edge) = (In(MarginSeconds), In(QuantumSeconds), In(EdgeQuantumSeconds));
        First = Math.Max(blocks.FirstSample(candidate.QuietFrom), opening - Up(opening - blocks.FirstSample(candidate.From) + margin, quantum));
        End = Math.Min(
            Math.Min(samples.Length, blocks.FirstSample(candidate.QuietTo)), closing + Up(blocks.FirstSample(candidate.To) - closing + margin, quantum));
        (int, int) About(Edge one, int at) =>
            (at - Up(at - blocks.FirstSample(one.From), edge) - First, at + Up(blocks.FirstSample(one.To + 1) - at, edge) - First);
        (Opening, Closing) = (About(candidate.Opening, opening), About(candidate.Closing, closing));
    }

    /// <summary>The first sample to look at, in samples of the recording.</summary>
    public int First { get; }

    /// <summary>One past the last.</summary>
    public int End { get; }

    /// <summary>About where it opens, from and to, counted from <see cref="First"/>.</summary>
    public (int From, int To) Opening { get; }

    /// <summary>About where it closes.</summary>
    public (int From, int To) Closing { get; }

    /// <summary>Standard deviation of a sample's noise beside the exposure.</summary>
    public double Noise(double[] values)
    {
        var (before, after) = (Math.Clamp(opening - First, 0, values.Length), Math.Clamp(closing - First, 0, values.Length));
        return StraightSignal.NoiseOf([.. values.AsSpan(Math.Max(0, before - noise)..before), .. values.AsSpan(after..Math.Min(values.Length, after + noise))]);
    }

    /// <summary>The sample where the mean of what follows differs most from the mean of what came before.</summary>
    public static int Steepest(ReadOnlySpan<float> samples, Blocks blocks, Edge edge)
    {
        var side = Math.Max(1, (int)Math.Round(SideSeconds * blocks.SampleRateHz));
        var from = Math.Max(side, blocks.FirstSample(edge.From - 1));
        var to = Math.Min(samples.Length - side, blocks.FirstSample(edge.To + 2));
        if (to <= from) return Math.Clamp(blocks.FirstSample(edge.Block), 0, samples.Length - 1);
        double difference = 0;
        for (var i = 0; i < side; i++) difference += samples[from + i] - samples[from - side + i];
        var (best, most) = (from, 0.0);
        for (var n = from; n < to; n++)
        {
            if (Math.Abs(difference) > most) (best, most) = (n, Math.Abs(difference));
            if (n + side < samples.Length) difference += (double)samples[n + side] - samples[n] - samples[n] + samples[n - side];
        }

        return best;
    }

    private static int Up(int value, int quantum) => (Math.Max(0, value) + quantum - 1) / quantum * quantum;
}
