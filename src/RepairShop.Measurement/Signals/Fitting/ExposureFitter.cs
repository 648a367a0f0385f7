using RepairShop.Measurement.Signals.Straightening;

namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>
/// Places the edges of one exposure. A short one is fitted whole, so that its few open samples and all the quiet ones hold the levels; a long
/// one has each edge fitted with the levels beside it, so that what a droop's correction gathers over a second does not matter.
/// </summary>
internal sealed class ExposureFitter
{
    private const double ShortSeconds = 0.008;
    private const double MarginSeconds = 0.005;
    private const double RestSeconds = 0.008;

    private readonly double[] values;
    private readonly double[] smooth;
    private readonly double rate;
    private readonly double noise;

    private ExposureFitter(StraightSignal signal, double sampleRateHz)
    {
        (values, rate) = (signal.Values, sampleRateHz);
        var greatest = Math.Max(values.Max(), 1e-30);
        noise = Math.Max(signal.Noise, 1e-6 * greatest);
        var share = noise / (0.03 * greatest);
        var width = (int)Math.Clamp(share * share, 1, Math.Max(1, 0.0003 * rate)) | 1;
        smooth = Smooth.Mean(values, width);
    }

    /// <summary>Fits the exposure whose edges lie at the given places.</summary>
    /// <param name="signal">The straight signal around it.</param>
    /// <param name="opening">About where it opens, in samples of the signal: from and to.</param>
    /// <param name="closing">About where it closes.</param>
    /// <param name="sampleRateHz">Samples a second.</param>
    /// <param name="held">The fully open level where it is known and reached; only a short exposure needs it.</param>
    /// <returns>Null where nothing opens and closes there.</returns>
    public static FittedExposure? Fit(
        StraightSignal signal, (int From, int To) opening, (int From, int To) closing, double sampleRateHz, OpenLevel? held = null)
    {
        var fitter = new ExposureFitter(signal, sampleRateHz);
        var roughly = (closing.From + closing.To - opening.From - opening.To) / 2.0 / sampleRateHz;
        return roughly < ShortSeconds ? fitter.Whole(opening.From, closing.To, held) : fitter.Apart(opening, closing);
    }

    private int In(double seconds) => Math.Max(1, (int)(seconds * rate));

    private FittedExposure? Whole(int from, int to, OpenLevel? held)
    {
        var peak = Math.Clamp(from, 0, values.Length - 1);
        for (var i = peak; i < Math.Min(to + 1, values.Length); i++)
            if (smooth[i] > smooth[peak]) peak = i;
        var top = smooth[peak];
        if (!(top > 3 * noise / Math.Sqrt(In(FitTools.BlockSeconds)))) return null;
        var (left, right) = (Smooth.FallsBelow(smooth, peak, -1, top / 2), Smooth.FallsBelow(smooth, peak, 1, top / 2));
        var level = Math.Max(0.5 * top, TopLevel(left, right, top));
        var opening = Ramp((int)Math.Floor(left), -1, level);
        var closing = Ramp((int)Math.Ceiling(right), 1, level);
        var (t0, t3) = (left - opening / 2, right + closing / 2);
        var (t1, t2) = (left + opening / 2, right - closing / 2);
        if (t1 > t2) t1 = t2 = (t1 + t2) / 2;
        var bounces = BounceFinder.Find(values, (int)t3, level, noise, rate);
        var (start, end) = (Math.Max(0, (int)t0 - In(MarginSeconds)), Math.Min(values.Length, (int)t3 + In(MarginSeconds)));
        if (end - start < 12) return null;
        var guess = FitTools.Guess(0, level, t0 - start, t1 - start, t2 - start, t3 - start);
        var fit = PulseFit.Both(values[start..end], FitTools.Skip(bounces, start, end), guess, noise, held);
        var model = FitTools.Shifted(fit.Model, start);
        return new()
        {
            Model = model,
            Opening50 = LocalCrossing.Of(values, model, model.OpeningAt(0.5), noise),
            Closing50 = LocalCrossing.Of(values, model, model.ClosingAt(0.5), noise),
            WidthUncertainty = FitTools.Uncertainty(fit, w => w.ClosingAt(0.5) - w.OpeningAt(0.5)),
            FittedLevelUncertainty = Math.Sqrt(Math.Max(0, fit.Covariance[PulseModel.Height, PulseModel.Height])),
            Cost = fit.Cost,
            Left = FitTools.BlockRms(values, model, model[PulseModel.T0] - In(0.002), model[PulseModel.T3] + In(0.002), bounces, rate),
            PlateauUnrest = 0,
            IsLong = false,
            ClosedAfter = model[PulseModel.Closed],
            Bounces = bounces,
        };
    }

    private FittedExposure? Apart((int From, int To) opening, (int From, int To) closing)
    {
        var forward = new EdgeFitter(values, smooth, noise, rate);
        var backward = forward.Reversed();
        var last = values.Length - 1;
        var plateau = closing.From - opening.To;
        var up = forward.Fit(opening, plateau, []);
        var down = backward.Fit((last - closing.To, last - closing.From), plateau, []);
        if (up is null || down is null) return null;
        IReadOnlyList<BounceFinder.Span> bounces = [];
        // A bounce right behind the closing hides in its first fit, and shows once that is put right.
        for (var pass = 0; pass < 2; pass++)
        {
            var closed = last - down.Model[PulseModel.T0];
            var found = BounceFinder.Find(Lowered(closed), (int)closed, down.Model[PulseModel.Height], noise, rate);
            if (found.Count == 0) break;
            bounces = found;
            down = backward.Fit((last - closing.To, last - closing.From), plateau, [.. bounces.Select(b => b with { From = last - b.To, To = last - b.From })]);
            if (down is null) return null;
        }

        var (model, unrest) = Joined(up.Model, down.Model, last);
        if (!(model[PulseModel.Height] > 0)) return null;
        return new()
        {
            Model = model,
            Opening50 = LocalCrossing.Of(values, up.Model, model.OpeningAt(0.5), noise),
            Closing50 = last - LocalCrossing.Of(backward.Signal, down.Model, last - model.ClosingAt(0.5), noise),
            WidthUncertainty = Math.Sqrt(up.Variance + down.Variance),
            FittedLevelUncertainty = noise / Math.Sqrt(Math.Max(1, Math.Min(model[PulseModel.T2] - model[PulseModel.T1], In(MarginSeconds)))),
            Cost = 0,
            Left = Math.Max(up.Left, down.Left),
            PlateauUnrest = unrest,
            IsLong = true,
            ClosedAfter = down.Model[PulseModel.Closed],
            Bounces = bounces,
        };
    }

    /// <summary>An opening and a closing read backwards as one exposure, its height the plateau's mean over the levels closed.</summary>
    private (PulseModel Model, double Unrest) Joined(PulseModel up, PulseModel down, int last)
    {
        var (first, second) = (up.Parameters, down.Parameters);
        var (t1, t2) = (first[PulseModel.T1], last - second[PulseModel.T1]);
        var (mean, unrest) = Plateau(t1, t2);
        var height = mean - (first[PulseModel.Closed] + second[PulseModel.Closed]) / 2;
        return (new()
        {
            Parameters =
            [
                first[PulseModel.Closed], height, first[PulseModel.T0], t1, t2, last - second[PulseModel.T0],
                .. first.AsSpan(PulseModel.OpeningShape, EdgeShape.Count), .. second.AsSpan(PulseModel.OpeningShape, EdgeShape.Count),
            ],
        }, unrest);
    }

    /// <summary>
    /// The signal with what lies behind the closing counted from where it comes to rest: beside a bounce no fit tells yet how dark closed is.
    /// </summary>
    private double[] Lowered(double closed)
    {
        var rest = Smooth.MeanOf(values, Math.Max((int)closed, values.Length - In(RestSeconds)), values.Length);
        var lowered = (double[])values.Clone();
        for (var i = Math.Max(0, (int)closed); i < lowered.Length; i++) lowered[i] -= rest;
        return lowered;
    }

    private double TopLevel(double left, double right, double top)
    {
        double sum = 0;
        var count = 0;
        for (var i = Math.Max(0, (int)left); i <= Math.Min(values.Length - 1, right); i++)
        {
            if (smooth[i] < 0.85 * top) continue;
            sum += values[i];
            count++;
        }

        return count == 0 ? top : sum / count;
    }

    private double Ramp(int half, int outwards, double level)
    {
        var low = Smooth.FallsBelow(smooth, half, outwards, 0.15 * level);
        var high = Smooth.RisesAbove(smooth, half, -outwards, 0.85 * level);
        return Math.Max(2, Math.Abs(high - low) / 0.7);
    }

    /// <summary>Mean of the plateau and the unrest of its blocks about a straight line.</summary>
    private (double Mean, double Unrest) Plateau(double from, double to)
    {
        var length = In(FitTools.BlockSeconds);
        var (start, end) = (Math.Max(0, (int)Math.Ceiling(from)), Math.Min(values.Length, (int)to));
        if (end - start < 4 * length) return (Smooth.MeanOf(values, start, Math.Max(start + 1, end)), 0);
        double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0, syy = 0;
        for (var i = start; i + length <= end; i += length)
        {
            var (x, y) = (n, Smooth.MeanOf(values, i, i + length));
            n++;
            (sx, sy, sxx, sxy, syy) = (sx + x, sy + y, sxx + x * x, sxy + x * y, syy + y * y);
        }

        var (cxx, cxy, cyy) = (sxx - sx * sx / n, sxy - sx * sy / n, syy - sy * sy / n);
        return (sy / n, Math.Sqrt(Math.Max(0, cyy - cxy * cxy / cxx) / n));
    }
}
