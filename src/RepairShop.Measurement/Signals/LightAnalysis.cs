using RepairShop.Measurement.Signals.Finding;
using RepairShop.Measurement.Signals.Fitting;
using RepairShop.Measurement.Signals.Straightening;

namespace RepairShop.Measurement.Signals;

/// <summary>One light channel from samples to figures.</summary>
internal sealed class LightAnalysis
{
    /// <summary>Nobody cocks and releases a shutter more often in a recording: what does is no shutter.</summary>
    private const int MostExposures = 400;

    /// <summary>Four and more releases that follow each other faster than this are no person's doing.</summary>
    private const double QuickestReleaseSeconds = 0.2;

    /// <summary>So many samples tell the noise.</summary>
    private const int NoiseSamples = 50_000;

    /// <summary>Where nothing at all is a shutter among more than this many, other readings won't help.</summary>
    private const int MostTriedAgain = 30;

    /// <summary>
    /// An exposure's edges stand above this share of the greatest, and the first one opens, unless the recording begins within an exposure. A
    /// fifth serves most; a lazy closing is a lower edge, and the droop of a high corner is a higher one that is none: these are tried where
    /// edges are left over.
    /// </summary>
    private static readonly (double Share, bool Turned)[] Ideas = [(0.2, false), (0.14, false), (0.1, false), (0.4, false), (0.2, true)];

    /// <summary>
    /// The first edge of at least this share of the greatest is where blocks are counted from, for what is put before it must not matter: other blocks
    /// have other means, and what noise leaves nearly undecided would be settled otherwise.
    /// </summary>
    private const double AnchorShare = 0.5;

    private readonly Recording recording;
    private readonly Rig rig;
    private readonly int channel;
    private readonly double rate;
    private readonly List<SignalWarning> warnings;

    public LightAnalysis(Recording recording, Rig rig, int channel, List<SignalWarning> warnings)
    {
        (this.recording, this.rig, this.channel, this.warnings) = (recording, rig, channel, warnings);
        rate = recording.SampleRateHz;
    }

    public LightChannel Run()
    {
        var samples = recording.Channel(channel);
        if (RecordingCheck.Fault(samples, rate) is { } fault) return Nothing(fault);
        var blocks = Blocks.Of(samples, rate);
        var finder = new EdgeFinder(blocks);
        if (!finder.HasEdges) return Nothing(WithoutExposures.Reason(blocks, recording.FullScale));
        if (finder.Strong(AnchorShare) is [var first, ..] && blocks.Meeting(samples, Placement.Steepest(samples, blocks, first)) is var anchored && anchored != blocks)
            (blocks, finder) = (anchored, new EdgeFinder(anchored));

        var damage = Damage.Of(samples, rate, recording.FullScale);
        Attempt? best = null;
        foreach (var (share, turned) in Ideas)
        {
            var attempt = Try(samples, blocks, finder, share, turned, damage);
            // The first reading is taken as it is; another one has to explain everything.
            if (attempt is not null && (best is null || (attempt.ExplainsAll(turned) && attempt.Score > best.Score))) best = attempt;
            if (best is { IsClean: true } or { Windows.Count: > MostTriedAgain }) break;
        }

        if (best is null || best.Found.Count == 0)
            return Nothing(IsDrowned(samples, finder.Greatest) ? Outcome.TooLittleLight : WithoutExposures.Sounding(blocks));
        var (found, windows, droop, polarity) = (best.Found, best.Windows, best.Droop, best.Polarity);
        var reference = OpenReference.Of(rig, channel, found, warnings);
        for (var i = 0; i < found.Count; i++)
            if (found[i].Fault is null && reference.Holds(found[i].Fit) is { } held
                && Find(samples, windows[found[i].Index], droop, found[i].Index, polarity, damage, held) is { Fault: null } again
                && OpenReference.Bears(found[i].Fit, again.Fit))
                found[i] = again with { Fit = again.Fit with { IsHeld = true } };
        damage.Warn(channel, found, rate, warnings);
        foreach (var edge in best.Alone) warnings.Add(new Disturbance(channel, blocks.CentreSample(edge.Block) / rate));
        return new ChannelReport(recording, rig, channel, warnings).Write(found, reference, droop, polarity, windows);
    }

    /// <summary>Reads the recording with one idea of how high an exposure's edges stand; null where nothing pairs up.</summary>
    private Attempt? Try(ReadOnlySpan<float> samples, Blocks blocks, EdgeFinder finder, double share, bool turned, Damage damage)
    {
        var strong = finder.Strong(share);
        if (strong.Count > 2 * MostExposures) return null;
        var polarity = CandidateFinder.Polarity(strong) * (turned ? -1 : 1);
        var alone = new List<Edge>();
        var candidates = CandidateFinder.Pair(blocks, strong, finder.Weak(), polarity, alone);
        if (candidates.Count == 0) return null;
        var windows = candidates.ConvertAll(candidate => new QuietWindow(blocks, candidate));
        var droop = Straighten.Fit(windows, polarity, rig.Coupling);
        return new(Found(samples, windows, droop, polarity, damage, alone.Count), windows, droop, polarity, alone);
    }

    /// <summary>What is no shutter at all does not count, so that numbers stay what a person sees.</summary>
    private List<FoundExposure> Found(ReadOnlySpan<float> samples, List<QuietWindow> windows, DroopFit droop, int polarity, Damage damage, int alone)
    {
        var found = new List<FoundExposure>();
        for (var i = 0; i < windows.Count; i++)
            if (Find(samples, windows[i], droop, i, polarity, damage, null) is { Fault: not Outcome.NotAShutter } one)
                found.Add(one);
        // Where more is no shutter than is, nothing is: sounds hold now and then something of a shutter's shape.
        if (windows.Count - found.Count + alone / 2 > found.Count || droop.IsAtLimit) found.Clear();
        // A refusal beside what is no shutter is most likely none either.
        if (windows.Count > found.Count && found.TrueForAll(one => one.Fault is not null)) found.Clear();
        var intervals = found.Zip(found.Skip(1), (a, b) => (b.Signal.First + b.Fit.Opening50 - a.Signal.First - a.Fit.Opening50) / rate).Order().ToList();
        if (intervals.Count >= 3 && intervals[intervals.Count / 2] < QuickestReleaseSeconds) found.Clear();
        return found;
    }

    private FoundExposure? Find(
        ReadOnlySpan<float> samples, QuietWindow window, DroopFit droop, int index, int polarity, Damage damage, OpenLevel? held)
    {
        var place = new Placement(samples, window);
        var (first, end) = (place.First, place.End);
        if (end - first < 16) return null;
        var (candidate, blocks) = (window.Candidate, window.Blocks);
        var tail = droop.Model(index, 0, blocks.PlaceOf(first)) - droop.Offset;
        var signal = StraightSignal.Of(samples, polarity, first, end, rate, droop, window, tail);
        signal = signal with { Noise = place.Noise(signal.Values) };
        var fit = ExposureFitter.Fit(signal, place.Opening, place.Closing, rate, held);
        if (fit is null) return null;
        fit = fit with { QuietLevelUncertainty = QuietLevel.Uncertainty(window, droop, index, fit.Dwell) };
        var harm = damage.Across(samples, blocks.FirstSample(candidate.From), blocks.FirstSample(candidate.To)) ?? Damage.Jump(fit, signal, rate);
        return new(index, signal, fit, ExposureJudge.Judge(fit, signal, window, droop, index, harm?.Reason), harm);
    }

    /// <summary>Whether not even the greatest edge is as high as an exposure's level must be: what made it can't be told from noise.</summary>
    private static bool IsDrowned(ReadOnlySpan<float> samples, double greatest)
    {
        var part = new double[Math.Min(NoiseSamples, samples.Length)];
        for (var i = 0; i < part.Length; i++) part[i] = samples[i];
        return greatest < ExposureJudge.LeastSignalToNoise * StraightSignal.NoiseOf(part);
    }

    private LightChannel Nothing(Outcome reason) =>
        new(channel, rig.Roles[channel], reason, new(InputCoupling.Auto, null, null), null, null, [], []);
}

/// <summary>One reading of a recording.</summary>
/// <param name="Found">What may be exposures, good or refused.</param>
/// <param name="Windows">Every candidate.</param>
/// <param name="Droop">The input's droop as they tell it.</param>
/// <param name="Polarity">+1 where light drives the signal up, −1 where down.</param>
/// <param name="Alone">Edges without a partner.</param>
internal sealed record Attempt(List<FoundExposure> Found, List<QuietWindow> Windows, DroopFit Droop, int Polarity, List<Edge> Alone)
{
    /// <summary>Whether every edge is part of an exposure and every candidate is one.</summary>
    public bool IsClean => Alone.Count == 0 && Found.Count == Windows.Count;

    /// <summary>Whether every candidate is a good exposure and every edge belongs to one, but for the one a recording may begin with.</summary>
    public bool ExplainsAll(bool beginsWithin) =>
        Alone.Count <= (beginsWithin ? 1 : 0) && Found.Count == Windows.Count && Found.TrueForAll(one => one.Fault is null);

    /// <summary>Exposures explained, less what is left over; of two alike, the one with less time open, for a shutter is mostly closed.</summary>
    public double Score => 2 * Found.Count(one => one.Fault is null) - Alone.Count - (Windows.Count - Found.Count)
        - 0.5 * Found.Sum(one => one.Fit.Width) / Windows[0].Blocks.Samples;
}

/// <summary>A candidate that was fitted.</summary>
/// <param name="Index">Which candidate, counted from 0.</param>
/// <param name="Signal">Its straight signal.</param>
/// <param name="Fit">The fit.</param>
/// <param name="Fault">Why it is no exposure with figures; null where it is one.</param>
/// <param name="Harm">What the input did to it, spoiling or not; null for nothing.</param>
internal sealed record FoundExposure(int Index, StraightSignal Signal, FittedExposure Fit, Outcome? Fault, Harm? Harm);
