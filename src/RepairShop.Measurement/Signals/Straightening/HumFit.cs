using RepairShop.Measurement.Signals.Finding;
using RepairShop.Measurement.Signals.Fitting;

namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>
/// Finds mains hum in what the droop's model leaves of the quiet parts: least squares on 50 or 60 Hz and its harmonics. The frequency is
/// searched, because mains are never quite on it: once for the channel, then closely for each exposure.
/// </summary>
internal sealed class HumFit
{
    private const int MostHarmonics = 8;

    /// <summary>Less quiet than this many periods tells hum from nothing.</summary>
    private const double LeastPeriods = 1.5;

    /// <summary>An amplitude must be this many times its own uncertainty.</summary>
    private const double Significant = 4.5;

    /// <summary>How far mains stray from their frequency at most, in hertz, and the steps of the search.</summary>
    private const double MostStrayHz = 0.8;

    private const double StepHz = 0.1;

    /// <summary>How far they stray usually (common practice).</summary>
    private const double UsualStrayHz = 0.2;

    private readonly IReadOnlyList<QuietWindow> windows;
    private readonly int polarity;
    private readonly Blocks blocks;

    /// <summary>50 or 60 Hz as it is in this recording; null while none is known.</summary>
    private double? mainsHz;

    public HumFit(IReadOnlyList<QuietWindow> windows, int polarity) => (this.windows, this.polarity, blocks) = (windows, polarity, windows[0].Blocks);

    /// <summary>Looks for hum in every window anew and puts it there; false where there is none.</summary>
    public bool Run(DroopFit droop)
    {
        var fits = new HarmonicFit[windows.Count];
        for (var i = 0; i < fits.Length; i++) fits[i] = new([.. Left(windows[i], droop, i)]);
        if (mainsHz is null && (mainsHz = Mains(fits)) is null) return false;
        var any = false;
        for (var i = 0; i < fits.Length; i++)
        {
            windows[i].Hum = HasEnough(fits[i]) ? Closely(fits[i], mainsHz.Value) : null;
            any |= windows[i].Hum is not null;
        }

        return any;
    }

    private bool HasEnough(HarmonicFit fit) => fit.Count * 50 / blocks.RateHz >= LeastPeriods;

    /// <summary>What the droop leaves of the raw block means.</summary>
    private IEnumerable<(double Start, double[] Values)> Left(QuietWindow window, DroopFit droop, int index)
    {
        foreach (var (segment, from, to) in new[] { (0, window.Candidate.QuietFrom, window.Candidate.From), (2, window.Candidate.To, window.Candidate.QuietTo) })
        {
            if (to <= from) continue;
            var values = new double[to - from];
            var (decay, ratio) = (droop.Model(index, segment, from + 0.5) - droop.Offset, Math.Exp(-droop.DecayPerSecond / blocks.RateHz));
            for (var i = 0; i < values.Length; i++, decay *= ratio) values[i] = polarity * (double)blocks.Means[from + i] - droop.Offset - decay;
            yield return (from, values);
        }
    }

    /// <summary>The mains' frequency from the windows with most quiet, which are enough for it; null where nothing hums.</summary>
    private double? Mains(HarmonicFit[] fits)
    {
        var best = fits.Where(HasEnough).OrderByDescending(fit => fit.Count).Take(4).ToList();
        if (best.Count == 0) return null;
        double? found = null;
        var least = double.PositiveInfinity;
        foreach (var nominal in new[] { 50.0, 60.0 })
        {
            // Far off by a fifth of a hertz a wave still stands out of the noise over the second that is looked at.
            if (!new[] { -3 * StepHz, 0, 3 * StepHz }.Any(off => best.Any(fit => Wave(fit, nominal + off) is not null))) continue;
            for (var frequency = nominal - MostStrayHz; frequency < nominal + MostStrayHz + StepHz / 2; frequency += StepHz)
            {
                var cost = best.Sum(fit => Cost(fit, frequency, nominal, UsualStrayHz));
                if (cost < least) (least, found) = (cost, frequency);
            }
        }

        return found;
    }

    /// <summary>The frequency of one window, near the recording's, by two parabolas through three costs each.</summary>
    private MainsWave? Closely(HarmonicFit fit, double nearHz)
    {
        var frequency = nearHz;
        foreach (var step in new[] { StepHz / 2, StepHz / 10 })
        {
            var (low, middle, high) = (
                Cost(fit, frequency - step, nearHz, StepHz), Cost(fit, frequency, nearHz, StepHz), Cost(fit, frequency + step, nearHz, StepHz));
            var bend = low - 2 * middle + high;
            frequency += bend > 0 ? Math.Clamp(step * (low - high) / (2 * bend), -2 * step, 2 * step) : low < high ? -step : step;
        }

        return Wave(fit, frequency);
    }

    private HarmonicFit.Result At(HarmonicFit fit, double frequencyHz) =>
        fit.At(2 * Math.PI * frequencyHz / blocks.RateHz, (int)Math.Min(MostHarmonics, 0.4 * blocks.RateHz / frequencyHz));

    /// <summary>Logarithm of the likelihood, with how far mains usually stray.</summary>
    private double Cost(HarmonicFit fit, double frequencyHz, double expectedHz, double strayHz)
    {
        var away = (frequencyHz - expectedHz) / strayHz;
        return fit.Count * Math.Log(Math.Max(At(fit, frequencyHz).Left, 1e-300)) + away * away;
    }

    private MainsWave? Wave(HarmonicFit fit, double frequencyHz)
    {
        var result = At(fit, frequencyHz);
        var inverse = Dense.Inverse(result.Normal);
        var variance = result.Left / Math.Max(1, fit.Count - result.Solution.Length);
        var harmonics = result.Solution.Length / 2;
        var (cosine, sine) = (new double[harmonics], new double[harmonics]);
        var any = false;
        for (var h = 0; h < harmonics; h++)
        {
            var (c, s) = (result.Solution[2 * h], result.Solution[2 * h + 1]);
            var uncertain = variance * (inverse[2 * h, 2 * h] + inverse[2 * h + 1, 2 * h + 1]);
            if (c * c + s * s <= Significant * Significant * uncertain / 2) continue;
            var gain = MainsWave.BlockFactor((h + 1) * frequencyHz, blocks);
            (cosine[h], sine[h], any) = (c / gain, s / gain, true);
        }

        // Blocks are counted from their number, the wave from the first block's centre.
        return any ? new(frequencyHz, blocks.CentreSample(0), cosine, sine) : null;
    }
}
