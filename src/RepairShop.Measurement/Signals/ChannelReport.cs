using RepairShop.Measurement.Signals.Fitting;
using RepairShop.Measurement.Signals.Straightening;

namespace RepairShop.Measurement.Signals;

/// <summary>Writes the fits of one channel down as figures.</summary>
internal sealed class ChannelReport(Recording recording, Rig rig, int channel, List<SignalWarning> warnings)
{
    private const double LittleLightDecibels = 26;

    private readonly double rate = recording.SampleRateHz;

    public LightChannel Write(List<FoundExposure> real, OpenReference given, DroopFit droop, int polarity, List<QuietWindow> windows)
    {
        var (reference, source) = (given.Level, given.Source);
        var good = real.Where(one => one.Fault is null).ToList();
        var coupling = Coupling(droop, good.Count > 0);
        Warn(real, windows);
        if (good.Count == 0)
        {
            var reason = real[0].Fault!.Value;
            return new(channel, rig.Roles[channel], reason, coupling, null, null, [], Refused(real));
        }

        var exposures = good.Select(one => Figures(one, real.IndexOf(one) + 1, reference, source, droop)).ToList();
        var open = reference ?? exposures.Where(e => e.DwellSeconds > 0 && !e.Flags.Contains(ExposureRemark.NeverRestsOpen))
            .OrderByDescending(e => e.DwellSeconds).FirstOrDefault()?.Level;
        return new(channel, rig.Roles[channel], Outcome.Ok, coupling, polarity > 0, open, exposures, Refused(real));
    }

    private void Warn(List<FoundExposure> real, List<QuietWindow> windows)
    {
        var hums = real.Where(one => windows[one.Index].Hum is not null)
            .Select(one => new MainsHum(channel, windows[one.Index].Hum!.FrequencyHz, windows[one.Index].Hum!.Amplitude / one.Fit.Level)).ToList();
        if (hums.MaxBy(hum => hum.Share) is { } loudest) warnings.Add(loudest);
        if (real.Select(Ripple).OfType<LampRipple>().MaxBy(ripple => ripple.Depth) is { } deepest) warnings.Add(deepest);
        FoundExposure? before = null;
        foreach (var one in real)
        {
            if (one.Fault == Outcome.TooClose)
            {
                var start = Seconds(one, one.Fit.Model[PulseModel.T0]);
                var gap = before is null ? 0 : start - Seconds(before, before.Fit.Model[PulseModel.T3]);
                warnings.Add(new TooClose(channel, start, Math.Max(0, gap)));
            }

            before = one;
        }
    }

    private LampRipple? Ripple(FoundExposure one)
    {
        var (fit, m) = (one.Fit, one.Fit.Model);
        return fit.IsLong && RippleFit.Find(one.Signal.Values, m[PulseModel.T1], m[PulseModel.T2], one.Signal.Noise, rate) is { } ripple
            ? new(channel, ripple.FrequencyHz, Math.Min(1, ripple.Depth))
            : null;
    }

    private static CouplingEstimate Coupling(DroopFit droop, bool any) => !any
        ? new(InputCoupling.Auto, null, null)
        : droop.DecayPerSecond > 0
            ? new(InputCoupling.Ac, 1 / droop.DecayPerSecond, droop.DecayUncertainty / (droop.DecayPerSecond * droop.DecayPerSecond))
            : new(InputCoupling.Dc, null, null);

    private List<RefusedExposure> Refused(List<FoundExposure> real) =>
        [.. real.Where(one => one.Fault is not null).Select(one =>
            new RefusedExposure(real.IndexOf(one) + 1, Seconds(one, one.Fit.Model[PulseModel.T0]), one.Fault!.Value))];

    private double Seconds(FoundExposure one, double sample) => (one.Signal.First + sample) / rate;

    private ExposureFigures Figures(FoundExposure one, int number, OpenLevel? reference, OpenLevelSource source, DroopFit droop)
    {
        var (fit, m) = (one.Fit, one.Fit.Model);
        var rests = OpenReference.RestsOpen(fit, reference);
        var level = new OpenLevel(fit.Level, fit.LevelUncertainty);
        // A long plateau knows its own level best; a short one is better told by the reference.
        var (open, by) = rests && (fit.IsLong || reference is null) ? (level, OpenLevelSource.OwnPlateau) : (reference, source);
        var bounces = fit.Bounces.Select(bounce => BounceOf(one, bounce)).ToList();
        // Where it rests open, its own level, with what the reference says of it, is the open one of its moment: a lamp that drifted changes no time.
        var share = open is null || fit.IsHeld && OpenReference.RestsOpen(fit, null) ? 1 : fit.Level / open.Value;
        var main = open is null ? (double?)null : m.Area * share / rate;
        var crossings = new Crossings(
            Seconds(one, m[PulseModel.T0]), Seconds(one, m.OpeningAt(0.1)), Seconds(one, fit.Opening50), Seconds(one, m.OpeningAt(0.9)),
            Seconds(one, m.ClosingAt(0.9)), Seconds(one, fit.Closing50), Seconds(one, m.ClosingAt(0.1)), Seconds(one, m[PulseModel.T3]));
        var total = crossings.CompleteClosingSeconds - crossings.FirstOpeningSeconds;
        var decibels = 20 * Math.Log10(fit.Level / Math.Max(one.Signal.Noise, 1e-9 * fit.Level));
        var remarks = new List<ExposureRemark>();
        if (bounces.Count > 0) remarks.Add(ExposureRemark.Bounce);
        if (!rests) remarks.Add(ExposureRemark.NeverRestsOpen);
        if (decibels < LittleLightDecibels)
        {
            remarks.Add(ExposureRemark.LittleLight);
            warnings.Add(new LittleLight(channel, number, decibels));
        }

        if (one.Harm?.Clipping is not null) remarks.Add(ExposureRemark.NearClipping);
        if (Ripple(one) is { IsStrong: true }) remarks.Add(ExposureRemark.StrongRipple);
        if (fit.Width / rate * droop.DecayPerSecond > Math.Log(2)) remarks.Add(ExposureRemark.DroopBeyondHalf);
        return new()
        {
            Number = number,
            Crossings = crossings,
            DwellSeconds = rests ? fit.Dwell / rate : 0,
            EffectiveSeconds = main + (main is null ? 0 : bounces.Sum(b => b.EffectiveSeconds) * share),
            EffectiveBy = open is null ? null : by,
            Efficiency = main is { } seconds ? Math.Min(1, seconds / total) : null,
            Level = level,
            Width50StandardUncertaintySeconds = fit.WidthUncertainty / rate,
            Bounces = bounces,
            Flags = remarks,
            Window = new(one.Signal.First / rate, 1 / rate, [.. one.Signal.Values.Select(v => (float)((v - m[PulseModel.Closed]) / fit.Level))],
                rests ? 1 : reference?.Value / fit.Level),
        };
    }

    private Bounce BounceOf(FoundExposure one, BounceFinder.Span span)
    {
        var (m, values) = (one.Fit.Model, one.Signal.Values);
        double peak = 0, sum = 0;
        for (var i = span.From; i < span.To; i++)
        {
            var light = values[i] - one.Fit.ClosedAfter;
            sum += light;
            peak = Math.Max(peak, light);
        }

        var above = 0;
        for (var i = span.From; i < span.To; i++)
            if (values[i] - one.Fit.ClosedAfter > peak / 2) above++;
        return new(Math.Max(0, span.From - m[PulseModel.T3]) / rate, Math.Min(1, peak / one.Fit.Level), Math.Max(1, above) / rate,
            Math.Max(0, sum) / one.Fit.Level / rate);
    }
}
