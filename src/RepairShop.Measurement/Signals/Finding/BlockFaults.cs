namespace RepairShop.Measurement.Signals.Finding;

/// <summary>
/// Blocks the input lost, inserted or repeated. Silence shows as a run of one value in a noisy signal, a repeat as samples that equal those a
/// block earlier to the last bit; both are looked for in the raw samples. A block lost without trace shows in the straight signal only.
/// </summary>
internal static class BlockFaults
{
    private const double LeastSilenceSeconds = 0.002;

    /// <summary>Block lengths in samples and in seconds that sound inputs use (common practice).</summary>
    private static readonly int[] BlockSamples = [64, 128, 192, 240, 256, 384, 441, 480, 512, 882, 960, 1024, 2048, 4096];

    private static readonly double[] BlockTimes = [0.0025, 0.005, 0.01, 0.02];

    private const double LeastStepShare = 1e-6;
    private const int Stride = 32;
    private const int LeastRepeat = 48;
    private const int LeastTurns = 12;

    /// <summary>Where a block went wrong, in samples.</summary>
    public readonly record struct Fault(int From, int To, BlockFault Kind);

    public static List<Fault> Find(ReadOnlySpan<float> samples, EqualRuns runs, double sampleRateHz, double? fullScale)
    {
        var faults = new List<Fault>();
        if (runs.IsStill) return faults;
        foreach (var run in runs.Runs)
        {
            // What an input gives before it starts and after it stops is no loss.
            if (run.From == 0 || run.To == samples.Length || run.Length < Math.Max(LeastSilenceSeconds * sampleRateHz, runs.LeastSuspicious)) continue;
            if (!StandsOut(samples, run)) continue;
            if (run.Value != 0 && (fullScale is { } scale && Math.Abs(run.Value) > 0.999 * scale || IsCeiling(samples, run))) continue;
            faults.Add(new(run.From, run.To, BlockFault.Silence));
        }

        int[] lags = [.. BlockSamples.Concat(BlockTimes.Select(time => (int)Math.Round(time * sampleRateHz))).Distinct().Order()];
        Repeats(samples, lags, Math.Max(LeastRepeat, runs.LeastSuspicious), faults);
        faults.Sort((a, b) => a.From.CompareTo(b.From));
        return faults;
    }

    /// <summary>A slow tail without noise runs into one value without a step: that is single precision, not a lost block.</summary>
    private static bool StandsOut(ReadOnlySpan<float> samples, EqualRuns.Run run)
    {
        var step = Math.Min(Math.Abs(samples[run.From - 1] - run.Value), Math.Abs(samples[run.To] - run.Value));
        return step > LeastStepShare * Math.Max(Math.Abs(run.Value), Math.Max(Math.Abs(samples[run.From - 1]), Math.Abs(samples[run.To])));
    }

    /// <summary>A run at the edge of all values around it is a ceiling, not a dropped block.</summary>
    private static bool IsCeiling(ReadOnlySpan<float> samples, EqualRuns.Run run)
    {
        var around = samples[Math.Max(0, run.From - 4 * run.Length)..Math.Min(samples.Length, run.To + 4 * run.Length)];
        bool above = false, below = false;
        foreach (var sample in around) (above, below) = (above || sample > run.Value, below || sample < run.Value);
        return !above || !below;
    }

    /// <summary>Looks at one sample in 32 for an equal one any of the blocks earlier, and grows what is found both ways.</summary>
    private static void Repeats(ReadOnlySpan<float> samples, ReadOnlySpan<int> lags, int least, List<Fault> faults)
    {
        for (var i = 0; i < samples.Length; i += Stride)
            foreach (var lag in lags)
                if (lag <= i && samples[i] == samples[i - lag]) AddRepeat(samples, i, lag, least, faults);
    }

    /// <summary>A method of its own, for what a lambda holds is allocated wherever it might be needed.</summary>
    private static void AddRepeat(ReadOnlySpan<float> samples, int at, int lag, int least, List<Fault> faults)
    {
        if (faults.Exists(f => f.From <= at && at < f.To)) return;
        if (Repeat(samples, at, lag, least) is { } fault && !faults.Exists(f => f.From < fault.To && fault.From < f.To)) faults.Add(fault);
    }

    private static Fault? Repeat(ReadOnlySpan<float> samples, int at, int lag, int least)
    {
        var (from, to) = (at, at + 1);
        while (from > lag && samples[from - 1] == samples[from - 1 - lag]) from--;
        while (to < samples.Length && samples[to] == samples[to - lag]) to++;
        if (to - from < least) return null;
        // A slow tail without noise may equal itself; only what goes up and down is told again.
        int turns = 0, direction = 0;
        for (var i = from + 1; i < to; i++)
        {
            var now = samples[i].CompareTo(samples[i - 1]);
            if (now != 0 && now == -direction) turns++;
            if (now != 0) direction = now;
        }

        return turns < LeastTurns ? null : new(from, to, BlockFault.Repeat);
    }
}
