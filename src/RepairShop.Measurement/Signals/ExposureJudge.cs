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

    /// <summary>Level over noise, below which an edge's place means nothing: 12 dB.</summary>
    private const double LeastSignalToNoise = 4;

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
        if (fit.Left > MostLeft * fit.Level + 2 * signal.Noise / Math.Sqrt(window.Blocks.Length)) return Outcome.NotAShutter;
        if (fit.PlateauUnrest > MostPlateauUnrest * fit.Level) return Outcome.NotAShutter;
        if (!quiet) return Outcome.NotAShutter;
        var least = window.Blocks.In(LeastQuietSeconds);
        var (before, after) = (window.Candidate.From - window.Candidate.QuietFrom, window.Candidate.QuietTo - window.Candidate.To);
        return before < least || after < least ? Outcome.TooClose : null;
    }

    /// <summary>Root mean square of what the droop's model leaves of the quiet parts, and of the quieter of the two.</summary>
    private static (double All, double Quieter) Unrest(QuietWindow window, DroopFit droop, int index)
    {
        (double Squares, double Weight) Of(List<Group> groups, int segment)
        {
            double squares = 0, weight = 0;
            foreach (var group in groups)
            {
                var left = group.Mean - droop.Model(index, segment, group.Centre);
                squares += group.Weight * left * left;
                weight += group.Weight;
            }

            return (squares, Math.Max(weight, 1e-9));
        }

        var (before, after) = (Of(window.Before, 0), Of(window.After, 2));
        return (Math.Sqrt((before.Squares + after.Squares) / (before.Weight + after.Weight)),
            Math.Sqrt(Math.Min(before.Squares / before.Weight, after.Squares / after.Weight)));
    }
}
