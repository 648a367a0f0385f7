namespace RepairShop.Measurement.Signals.Finding;

/// <summary>Stretches of one and the same value. In a noisy signal they are made by a ceiling or by an input that dropped out.</summary>
internal sealed class EqualRuns
{
    /// <summary>Shorter runs happen by chance in a coarsely quantised signal.</summary>
    private const int Least = 8;

    /// <summary>A recording that stands still for more of its time than this has no noise to judge runs by.</summary>
    private const double StillShare = 0.3;

    private EqualRuns(List<Run> runs, bool isStill) => (Runs, IsStill) = (runs, isStill);

    /// <summary>From a sample on, so many samples of one value.</summary>
    public readonly record struct Run(int From, int Length, float Value)
    {
        public int To => From + Length;
    }

    /// <summary>All runs of eight samples and more, in order.</summary>
    public IReadOnlyList<Run> Runs { get; }

    /// <summary>Whether the recording is so free of noise that runs are its nature.</summary>
    public bool IsStill { get; }

    public static EqualRuns Of(ReadOnlySpan<float> samples)
    {
        var runs = new List<Run>();
        long still = 0;
        for (var i = 0; i + Least - 1 < samples.Length;)
        {
            if (samples[i] != samples[i + Least - 1] || !AllEqual(samples.Slice(i, Least)))
            {
                i += 1;
                continue;
            }

            var end = i + Least;
            while (end < samples.Length && samples[end] == samples[i]) end++;
            runs.Add(new(i, end - i, samples[i]));
            still += end - i;
            i = end;
        }

        return new(runs, still > StillShare * samples.Length);
    }

    private static bool AllEqual(ReadOnlySpan<float> samples) => samples.IndexOfAnyExcept(samples[0]) < 0;
}
