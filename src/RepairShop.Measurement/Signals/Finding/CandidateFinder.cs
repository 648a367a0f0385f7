namespace RepairShop.Measurement.Signals.Finding;

/// <summary>Pairs edges to candidates: an opening, its closing, then bounces that follow within a few hundredths of a second.</summary>
internal static class CandidateFinder
{
    /// <summary>Blades that open again do so within this time (common practice: a few milliseconds).</summary>
    private const double BounceSeconds = 0.03;

    /// <summary>A second opening higher than this share of the first is an exposure of its own.</summary>
    private const double BounceShare = 0.7;

    /// <summary>Quiet before and after that is looked at, at most.</summary>
    private const double QuietSeconds = 0.6;

    private const double MarginSeconds = 0.001;

    /// <summary>The direction in which light drives the signal: that of the first edge, for a shutter opens before it closes.</summary>
    public static int Polarity(IReadOnlyList<Edge> strong) => strong.Count == 0 ? 0 : Math.Sign(strong[0].Height);

    public static List<Candidate> Pair(Blocks blocks, IReadOnlyList<Edge> strong, IReadOnlyList<Edge> weak, int polarity, List<Edge> alone)
    {
        var found = new List<Candidate>();
        var margin = blocks.In(MarginSeconds);
        for (var i = 0; i < strong.Count; i++)
        {
            var opening = strong[i];
            if (Math.Sign(opening.Height) != polarity || i + 1 == strong.Count || Math.Sign(strong[i + 1].Height) == polarity)
            {
                alone.Add(opening);
                continue;
            }

            var closing = strong[++i];
            // The droop of an input may look like a closing; the true one behind it is much higher.
            while (i + 1 < strong.Count && Math.Sign(strong[i + 1].Height) != polarity && Math.Abs(strong[i + 1].Height) > 2 * Math.Abs(closing.Height))
                closing = strong[++i];
            if (found.Count > 0 && IsBounce(blocks, found[^1], opening))
            {
                found[^1] = found[^1] with { To = closing.To + margin };
                continue;
            }

            found.Add(new(opening, closing, opening.From - margin, closing.To + margin));
        }

        for (var i = 0; i < found.Count; i++) found[i] = Stretch(blocks, found[i], weak, margin);
        for (var i = 0; i < found.Count; i++) found[i] = WithQuiet(blocks, found, i, alone, margin);
        return found;
    }

    private static bool IsBounce(Blocks blocks, Candidate before, Edge opening) =>
        opening.Block - before.To <= blocks.In(BounceSeconds) && Math.Abs(opening.Height) < BounceShare * Math.Abs(before.Opening.Height);

    private static Candidate Stretch(Blocks blocks, Candidate candidate, IReadOnlyList<Edge> weak, int margin)
    {
        var (from, to) = (candidate.From, candidate.To);
        foreach (var edge in weak)
        {
            if (edge.From <= candidate.Opening.To && edge.To >= candidate.Opening.From) from = Math.Min(from, edge.From - margin);
            var bounces = edge.From > candidate.Closing.From && edge.From - to <= blocks.In(BounceSeconds) / 2
                && Math.Abs(edge.Height) < BounceShare * Math.Abs(candidate.Opening.Height);
            if (bounces || (edge.From <= candidate.Closing.To && edge.To >= candidate.Closing.From)) to = Math.Max(to, edge.To + margin);
        }

        return candidate with { From = Math.Max(0, from), To = Math.Min(blocks.Count, to) };
    }

    private static Candidate WithQuiet(Blocks blocks, List<Candidate> all, int index, List<Edge> alone, int margin)
    {
        var one = all[index];
        var before = index == 0 ? 0 : all[index - 1].To;
        var after = index + 1 == all.Count ? blocks.Count : all[index + 1].From;
        // An edge that belongs to nothing ends what is quiet.
        foreach (var edge in alone)
        {
            if (edge.To < one.From) before = Math.Max(before, edge.To + margin);
            if (edge.From > one.To) after = Math.Min(after, edge.From - margin);
        }

        var quiet = blocks.In(QuietSeconds);
        return one with
        {
            QuietFrom = Math.Min(one.From, Math.Max(before, one.From - quiet)),
            QuietTo = Math.Max(one.To, Math.Min(after, one.To + quiet)),
        };
    }
}
