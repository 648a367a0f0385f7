using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Signals.Finding;

namespace RepairShop.Measurement.Signals;

/// <summary>Places the flash contact's closing beside the blades' opening.</summary>
internal static class FlashAnalysis
{
    /// <summary>A contact that belongs to an exposure closes no earlier than this before it opens.</summary>
    private const double MostLeadSeconds = 0.06;

    private const double BounceSeconds = 0.005;

    /// <summary>A contact switches between two levels; edges below a fifth of the greatest are none of its.</summary>
    private const double EdgeShare = 0.2;

    public static IReadOnlyList<FlashFigures> Of(ReadOnlySpan<float> contact, double sampleRateHz, LightChannel light, FlashContactKind kind)
    {
        if (RecordingCheck.Fault(contact, sampleRateHz) is not null || light.Exposures.Count == 0) return [];
        var blocks = Blocks.Of(contact, sampleRateHz);
        var finder = new EdgeFinder(blocks);
        if (!finder.HasEdges) return [];
        var edges = finder.Strong(EdgeShare).ToList();
        var closes = Math.Sign(edges[0].Height);
        var figures = new List<FlashFigures>();
        foreach (var exposure in light.Exposures)
        {
            var index = edges.FindIndex(edge => Math.Sign(edge.Height) == closes && Belongs(blocks.CentreSample(edge.Block) / sampleRateHz, exposure));
            if (index < 0) continue;
            var (at, bounces) = Crossing(contact, edges[index], blocks);
            double? opens = index + 1 < edges.Count ? Crossing(contact, edges[index + 1], blocks).Sample : null;
            var atSeconds = at / sampleRateHz;
            var lead = exposure.Crossings.Opening90Seconds - atSeconds;
            var left = exposure.Crossings.Closing90Seconds - atSeconds;
            figures.Add(new(atSeconds, lead, left, (opens - at) / sampleRateHz, bounces, kind, Judge(kind, lead, left)));
        }

        return figures;
    }

    private static bool Belongs(double seconds, ExposureFigures exposure) =>
        seconds > exposure.StartSeconds - MostLeadSeconds && seconds < exposure.Crossings.CompleteClosingSeconds + MostLeadSeconds / 2;

    private static Verdict Judge(FlashContactKind kind, double lead, double left) => kind switch
    {
        FlashContactKind.X => left < 0 ? Verdict.Outside : DecisionRule.JudgeSimply(lead, null, FlashLimits.XLeadSeconds),
        FlashContactKind.M => DecisionRule.JudgeSimply(lead, FlashLimits.MLeadLeastSeconds, FlashLimits.MLeadMostSeconds),
        _ => Verdict.NotJudged,
    };

    /// <summary>Where the contact passes half its step first, between samples, and how often it springs back within a few milliseconds.</summary>
    private static (double Sample, int Bounces) Crossing(ReadOnlySpan<float> contact, Edge edge, Blocks blocks)
    {
        var side = blocks.In(0.0015) * blocks.Length;
        var (from, to) = (Math.Max(0, edge.From * blocks.Length - side), Math.Min(contact.Length, (edge.To + 1) * blocks.Length + side));
        var (before, after) = (Mean(contact[from..Math.Min(to, from + side / 2)]), Mean(contact[Math.Max(from, to - side / 2)..to]));
        var sign = Math.Sign(after - before);
        var middle = (before + after) / 2;
        var end = Math.Min(contact.Length, to + (int)(BounceSeconds * blocks.SampleRateHz));
        var (first, bounces, closed) = (double.NaN, 0, false);
        for (var i = from + 1; i < end; i++)
        {
            var beyond = sign * (contact[i] - middle);
            if (!closed && beyond > 0)
            {
                if (double.IsNaN(first)) first = i - 1 + (middle - contact[i - 1]) / (contact[i] - contact[i - 1]);
                else if (i - first < BounceSeconds * blocks.SampleRateHz) bounces++;
                closed = true;
            }

            // Back beyond a quarter counts as open again; noise about the middle does not.
            if (closed && beyond < -0.25 * Math.Abs(after - before)) closed = false;
        }

        return (double.IsNaN(first) ? blocks.CentreSample(edge.Block) : first, bounces);
    }

    private static double Mean(ReadOnlySpan<float> samples)
    {
        double sum = 0;
        foreach (var sample in samples) sum += sample;
        return sum / Math.Max(1, samples.Length);
    }
}
