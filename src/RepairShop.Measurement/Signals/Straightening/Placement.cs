using RepairShop.Measurement.Signals.Finding;

namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>
/// Where an exposure's signal is cut out of the recording. Everything is counted from the sample of its steepest change, not from the blocks of
/// the search: silence put before a recording moves the blocks, and must change no time.
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
        var (candidate, length, rate) = (window.Candidate, window.Blocks.Length, window.Blocks.SampleRateHz);
        int In(double seconds) => Math.Max(1, (int)Math.Round(seconds * rate));
        var side = In(SideSeconds);
        (opening, closing) = (Steepest(samples, candidate.Opening, length, side), Steepest(samples, candidate.Closing, length, side));
        noise = In(NoiseSeconds);
        var (margin, quantum, edge) = (In(MarginSeconds), In(QuantumSeconds), In(EdgeQuantumSeconds));
        First = Math.Max(candidate.QuietFrom * length, opening - Up(opening - candidate.From * length + margin, quantum));
        End = Math.Min(Math.Min(samples.Length, candidate.QuietTo * length), closing + Up(candidate.To * length - closing + margin, quantum));
        (int, int) About(Edge one, int at) =>
            (at - Up(at - one.From * length, edge) - First, at + Up((one.To + 1) * length - at, edge) - First);
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
    private static int Steepest(ReadOnlySpan<float> samples, Edge edge, int length, int side)
    {
        var from = Math.Max(side, (edge.From - 1) * length);
        var to = Math.Min(samples.Length - side, (edge.To + 2) * length);
        if (to <= from) return Math.Clamp(edge.Block * length, 0, samples.Length - 1);
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
