using RepairShop.Measurement.Signals.Finding;
using RepairShop.Measurement.Signals.Fitting;
using RepairShop.Measurement.Signals.Straightening;

namespace RepairShop.Measurement.Signals;

/// <summary>What an input did to one exposure.</summary>
/// <param name="Clipping">Samples at the ceiling; null for none.</param>
/// <param name="JumpSample">Where the signal jumps as if a block were missing, in samples of the recording; null for nowhere.</param>
/// <param name="Reason">Why the exposure has no figures; null where they can stand.</param>
internal sealed record Harm(ClippingScan.Finding? Clipping, int? JumpSample, Outcome? Reason);

/// <summary>What an input did to a channel: overdriven, blocks lost, inserted or repeated.</summary>
internal sealed class Damage
{
    /// <summary>A fault this near to an exposure may have moved its edges or its levels.</summary>
    private const double NearSeconds = 0.01;

    private readonly EqualRuns runs;
    private readonly List<BlockFaults.Fault> faults;
    private readonly double? fullScale;
    private readonly int near;

    private Damage(EqualRuns runs, List<BlockFaults.Fault> faults, double? fullScale, int near) =>
        (this.runs, this.faults, this.fullScale, this.near) = (runs, faults, fullScale, near);

    public static Damage Of(ReadOnlySpan<float> samples, double sampleRateHz, double? fullScale)
    {
        var runs = EqualRuns.Of(samples);
        return new(runs, BlockFaults.Find(samples, runs, sampleRateHz, fullScale), fullScale, (int)(NearSeconds * sampleRateHz));
    }

    /// <summary>What happened from one sample to another; null for nothing.</summary>
    public Harm? Across(ReadOnlySpan<float> samples, int from, int to)
    {
        var clipping = ClippingScan.Of(samples, from, to, fullScale, runs);
        if (clipping is { IsSpoilt: true }) return new(clipping, null, Outcome.Clipped);
        if (faults.Any(fault => fault.From < to + near && fault.To > from - near)) return new(clipping, null, Outcome.DroppedBlock);
        return clipping is null ? null : new(clipping, null, null);
    }

    /// <summary>A jump on the plateau or in the tail of a fitted exposure; null for none.</summary>
    public static Harm? Jump(FittedExposure fit, StraightSignal signal, double sampleRateHz)
    {
        if (!fit.IsLong) return null;
        var m = fit.Model;
        var at = JumpFinder.Find(signal.Values, m[PulseModel.T1], m[PulseModel.T2], fit.Level, signal.Noise, sampleRateHz);
        if (fit.Bounces.Count == 0) at ??= JumpFinder.Find(signal.Values, m[PulseModel.T3], signal.Values.Length, fit.Level, signal.Noise, sampleRateHz);
        return at is { } sample ? new(null, signal.First + sample, Outcome.DroppedBlock) : null;
    }

    /// <summary>Tells of everything once, in order of time.</summary>
    public void Warn(int channel, IReadOnlyList<FoundExposure> found, double sampleRateHz, List<SignalWarning> warnings)
    {
        var told = new List<(double At, SignalWarning Warning)>();
        foreach (var fault in faults)
            told.Add((fault.From / sampleRateHz, new DroppedBlock(channel, fault.From / sampleRateHz, (fault.To - fault.From) / sampleRateHz, fault.Kind)));
        foreach (var harm in found.Select(one => one.Harm).OfType<Harm>())
        {
            if (harm.Clipping is { } clipping) told.Add((clipping.AtSample / sampleRateHz, new Clipping(channel, clipping.AtSample / sampleRateHz, clipping.Samples, clipping.Level)));
            if (harm.JumpSample is { } jump) told.Add((jump / sampleRateHz, new DroppedBlock(channel, jump / sampleRateHz, null, BlockFault.Jump)));
        }

        warnings.AddRange(told.OrderBy(one => one.At).Select(one => one.Warning));
    }
}
