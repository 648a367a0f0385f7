using RepairShop.Measurement.Signals.Fitting;
using RepairShop.Measurement.Signals.Straightening;

namespace RepairShop.Measurement.Signals;

/// <summary>
/// Tells an exposure from everything else that has edges: quiet before and after, two edges a shutter can make, a steady light between them,
/// and a model that leaves little. The limits are our own, chosen wide for shutters and far below what speech, music or clicks reach.
/// </summary>
internal static class ExposureJudge
{
    private const double LeastWidthSeconds = 0.00022;
    private const double LeastWidthSamples = 5;
    private const double LeastQuietSeconds = 0.003;
    private const double LongestOpeningSeconds = 0.06;
    private const double MostLeft = 0.07;
    private const double MostQuietUnrest = 0.12;
    private const double MostPlateauUnrest = 0.3;
    private const double UnrestSeconds = 0.001;
    private const double MostRinging = 0.12;

    /// <summary>Blades have come to rest so long after closing (common practice: a few milliseconds).</summary>
    private const double RestSeconds = 0.025;

    /// <summary>Level over noise, below which an edge's place means nothing: 12 dB.</summary>
    public const double LeastSignalToNoise = 4;

    /// <summary>An edge of fewer samples than this with a decay many times as long is a click, not blades.</summary>
    private const double ClickSamples = 3;

    private const double ClickDecay = 10;

    public static Outcome? Judge(
        FittedExposure fit, StraightSignal signal, QuietWindow window, DroopFit droop, int index, Outcome? harm)
    {
        var rate = window.Blocks.SampleRateHz;
        var m = fit.Model;
        if (!m.Parameters.All(double.IsFinite) || !(fit.Level > 0) || !(fit.Width > 0)) return Outcome.NotAShutter;
        var (unrest, quieter) = Unrest(window, droop, index);
        var quiet = unrest < MostQuietUnrest * fit.Level || quieter < MostQuietUnrest * fit.Level;
        if (quiet && harm is not null) return harm;
        if (fit.Level < LeastSignalToNoise * signal.Noise) return Outcome.TooLittleLight;
        if (fit.Width < Math.Max(LeastWidthSamples, LeastWidthSeconds * rate)) return Outcome.NotAShutter;
        var (opening, closing) = (m[PulseModel.T1] - m[PulseModel.T0], m[PulseModel.T3] - m[PulseModel.T2]);
        if (opening > LongestOpeningSeconds * rate) return Outcome.NotAShutter;
        if (opening < ClickSamples && closing > ClickDecay * opening && fit.Dwell < closing / 4) return Outcome.NotAShutter;
        if (fit.Left > MostLeft * fit.Level + 2 * Slow(signal.Noise / Math.Sqrt(window.Blocks.Length), droop.BlockNoise)) return Outcome.NotAShutter;
        if (fit.PlateauUnrest > MostPlateauUnrest * fit.Level) return Outcome.NotAShutter;
        if (!quiet || Rings(fit, signal, window)) return Outcome.NotAShutter;
        var least = window.Blocks.In(LeastQuietSeconds);
        var (before, after) = (window.Candidate.From - window.Candidate.QuietFrom, window.Candidate.QuietTo - window.Candidate.To);
        return before < least || after < least ? Outcome.TooClose : null;
    }

    /// <summary>Whether the signal still swings, either way, when any blade has come to rest.</summary>
    private static bool Rings(FittedExposure fit, StraightSignal signal, QuietWindow window)
    {
        var cell = window.Blocks.In(UnrestSeconds) * window.Blocks.Length;
        var most = MostRinging * fit.Level + 4 * signal.Noise / Math.Sqrt(cell);
        var from = fit.Model[PulseModel.T3] + RestSeconds * window.Blocks.SampleRateHz;
        for (var i = (int)from; i + cell <= signal.Values.Length; i += cell)
            if (Math.Abs(Smooth.MeanOf(signal.Values, i, i + cell) - fit.ClosedAfter) > most) return true;
        return false;
    }

    /// <summary>The noise of a block's mean: from its samples, or up to four times that where the noise is slow, as pink noise is.</summary>
    private static double Slow(double fromSamples, double seen) => Math.Clamp(seen, fromSamples, 4 * fromSamples);

    /// <summary>Root mean square of what the droop's model leaves of the quiet parts' milliseconds, and of the quieter of the two.</summary>
    private static (double All, double Quieter) Unrest(QuietWindow window, DroopFit droop, int index)
    {
        var (candidate, cell) = (window.Candidate, window.Blocks.In(UnrestSeconds));
        (double Squares, double Count) Of(int segment, int from, int to)
        {
            double squares = 0, count = 0;
            var ratio = Math.Exp(-droop.DecayPerSecond / window.Blocks.RateHz * cell);
            var decay = droop.Model(index, segment, from + cell / 2.0) - droop.Offset;
            for (var block = from; block + cell <= to; block += cell, decay *= ratio)
            {
                double left = 0;
                for (var i = 0; i < cell; i++) left += window.Values[block + i - candidate.QuietFrom];
                left = left / cell - droop.Offset - decay;
                squares += left * left;
                count++;
            }

            return (squares, Math.Max(count, 1e-9));
        }

        var (before, after) = (Of(0, candidate.QuietFrom, candidate.From), Of(2, candidate.To, candidate.QuietTo));
        return (Math.Sqrt((before.Squares + after.Squares) / (before.Count + after.Count)),
            Math.Sqrt(Math.Min(before.Squares / before.Count, after.Squares / after.Count)));
    }
}
