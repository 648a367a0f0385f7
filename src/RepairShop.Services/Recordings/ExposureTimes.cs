using RepairShop.Measurement.ShutterTests;
using RepairShop.Measurement.Signals;

namespace RepairShop.Services.Recordings;

/// <summary>The times of several exposures as one sample: effective times where each has one, else 50 % widths, never a mixture.</summary>
internal sealed record ExposureTimes(double[] Seconds, bool AreEffective, TimingInstrument Instrument)
{
    public static ExposureTimes Of(IReadOnlyList<ExposureFigures> exposures)
    {
        var effective = exposures.All(one => one.EffectiveSeconds is not null);
        return new ExposureTimes(
            [.. exposures.Select(one => effective ? one.EffectiveSeconds!.Value : one.Width50Seconds)], effective,
            Coarsest(exposures.Select(one => one.Instrument)));
    }

    /// <summary>What is common to a whole sample is at most what the worst of it has.</summary>
    public static TimingInstrument Coarsest(IEnumerable<TimingInstrument> instruments)
    {
        var all = instruments.ToList();
        return all.Count == 0 ? new TimingInstrument(0) : new TimingInstrument(all.Max(one => one.ResolutionSeconds), all.Max(one => one.TriggerHalfWidthSeconds));
    }
}
