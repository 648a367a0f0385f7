using RepairShop.Domain.Paperwork;
using RepairShop.Measurement.Signals;

namespace RepairShop.Services.Recordings;

/// <summary>
/// Thins an exposure's signal to what a drawing can show, dense at opening and closing and sparse between: largest triangle of three buckets
/// (S. Steinarsson, "Downsampling Time Series for Visual Representation", University of Iceland, 2013) in each stretch.
/// </summary>
internal static class Thinning
{
    private const int AtAnEdge = 90, Between = 60;

    public static TraceFacts Of(ExposureFigures figures)
    {
        var (window, crossings) = (figures.Window, figures.Crossings);
        var zero = crossings.Opening50Seconds;
        var opening = crossings.Opening90Seconds - crossings.FirstOpeningSeconds;
        var closing = crossings.CompleteClosingSeconds - crossings.Closing90Seconds;
        var last = figures.Bounces.Count == 0 ? 0 : figures.Bounces.Max(bounce => bounce.DelaySeconds + bounce.DurationSeconds);
        // Shown: a third of the exposure, or its edges' length, on either side, and all its bounces.
        var margin = Math.Max(Math.Max(opening, closing), figures.TotalSeconds / 3);
        int At(double seconds) => Math.Clamp((int)Math.Round((seconds - window.StartSeconds) / window.StepSeconds), 0, window.Values.Count);
        int[] ends =
        [
            At(crossings.FirstOpeningSeconds - margin), At(crossings.FirstOpeningSeconds - opening / 2), At(crossings.Opening90Seconds + opening / 2),
            At(crossings.Closing90Seconds - closing / 2), At(crossings.CompleteClosingSeconds + closing / 2 + last), At(crossings.CompleteClosingSeconds + margin + last),
        ];
        int[] most = [Between / 3, AtAnEdge, Between, AtAnEdge, Between / 3];
        var kept = new List<int>();
        for (var i = 0; i + 1 < ends.Length; i++)
        {
            var from = Math.Max(ends[i], kept.Count == 0 ? ends[0] : kept[^1] + 1);
            kept.AddRange(Pick(window.Values, from, ends[i + 1], most[i]));
        }

        double Ms(double seconds) => (seconds - zero) * 1000;
        return new TraceFacts
        {
            Milliseconds = [.. kept.Select(i => (float)Math.Round(Ms(window.StartSeconds + i * window.StepSeconds), 4))],
            Values = [.. kept.Select(i => MathF.Round(window.Values[i], 4))],
            Crossings =
            [
                Ms(crossings.FirstOpeningSeconds), Ms(crossings.Opening10Seconds), 0, Ms(crossings.Opening90Seconds),
                Ms(crossings.Closing90Seconds), Ms(crossings.Closing50Seconds), Ms(crossings.Closing10Seconds), Ms(crossings.CompleteClosingSeconds),
            ],
            OpenLevel = window.OpenLevel,
        };
    }

    /// <summary>At most that many of the samples from one to before another, the outermost always among them.</summary>
    private static IEnumerable<int> Pick(IReadOnlyList<float> values, int from, int to, int most)
    {
        var count = to - from;
        if (count <= most)
        {
            for (var i = from; i < to; i++)
                yield return i;
            yield break;
        }

        var chosen = from;
        yield return from;
        var bucket = (count - 2) / (double)(most - 2);
        for (var i = 0; i < most - 2; i++)
        {
            var (start, end) = (from + 1 + (int)(i * bucket), from + 1 + (int)((i + 1) * bucket));
            var (nextStart, nextEnd) = (end, Math.Min(to, from + 1 + (int)((i + 2) * bucket)));
            var mean = 0.0;
            for (var j = nextStart; j < Math.Max(nextEnd, nextStart + 1); j++)
                mean += values[Math.Min(j, to - 1)];
            mean /= Math.Max(1, nextEnd - nextStart);
            chosen = Largest(values, chosen, start, end, (nextStart + nextEnd) / 2.0, mean);
            yield return chosen;
        }

        yield return to - 1;
    }

    private static int Largest(IReadOnlyList<float> values, int before, int start, int end, double nextAt, double nextMean)
    {
        var (best, area) = (start, -1.0);
        for (var i = start; i < end; i++)
        {
            var size = Math.Abs((before - nextAt) * (values[i] - values[before]) - (before - i) * (nextMean - values[before]));
            if (size > area)
                (best, area) = (i, size);
        }

        return best;
    }
}
