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
    private const double PlateauSeconds = 0.010;
    private const double BlockSeconds = 0.00025;

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
        if (!(top > 3 * noise / Math.Sqrt(In(BlockSeconds)))) return null;
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
        var guess = Guess(level, t0 - start, t1 - start, t2 - start, t3 - start);
        var fit = PulseFit.Both(values[start..end], Skip(bounces, start, end), guess, noise, held);
        var model = Shifted(fit.Model, start);
        return new()
        {
            Model = model,
            Opening50 = LocalCrossing.Of(values, model, model.OpeningAt(0.5), noise),
            Closing50 = LocalCrossing.Of(values, model, model.ClosingAt(0.5), noise),
            WidthUncertainty = Uncertainty(fit, w => w.ClosingAt(0.5) - w.OpeningAt(0.5)),
            LevelUncertainty = Math.Sqrt(Math.Max(0, fit.Covariance[PulseModel.Height, PulseModel.Height])),
            DwellUncertainty = Uncertainty(fit, w => w[PulseModel.T2] - w[PulseModel.T1]),
            Left = Left(model, model[PulseModel.T0] - In(0.002), model[PulseModel.T3] + In(0.002), bounces),
            PlateauUnrest = 0,
            IsLong = false,
            Bounces = bounces,
        };
    }

    private FittedExposure? Apart((int From, int To) opening, (int From, int To) closing)
    {
        var reversed = (double[])values.Clone();
        Array.Reverse(reversed);
        var reversedSmooth = (double[])smooth.Clone();
        Array.Reverse(reversedSmooth);
        var last = values.Length - 1;
        var plateau = closing.From - opening.To;
        var up = Edge(values, smooth, opening, plateau, []);
        if (up is null) return null;
        var quick = Edge(reversed, reversedSmooth, (last - closing.To, last - closing.From), plateau, []);
        if (quick is null) return null;
        var bounces = BounceFinder.Find(Lowered(last - quick.Value.Model[PulseModel.T0], quick.Value.Model[PulseModel.Closed]),
            (int)(last - quick.Value.Model[PulseModel.T0]), quick.Value.Model[PulseModel.Height], noise, rate);
        var down = bounces.Count == 0
            ? quick
            : Edge(reversed, reversedSmooth, (last - closing.To, last - closing.From), plateau, [.. bounces.Select(b => b with { From = last - b.To, To = last - b.From })]);
        if (down is null) return null;

        var model = new PulseModel();
        var (first, second) = (up.Value.Model.Parameters, down.Value.Model.Parameters);
        model.Parameters[PulseModel.Closed] = first[PulseModel.Closed];
        (model.Parameters[PulseModel.T0], model.Parameters[PulseModel.T1]) = (first[PulseModel.T0], first[PulseModel.T1]);
        (model.Parameters[PulseModel.T2], model.Parameters[PulseModel.T3]) = (last - second[PulseModel.T1], last - second[PulseModel.T0]);
        (model.Parameters[PulseModel.OpeningLean], model.Parameters[PulseModel.OpeningRoundness]) = (first[PulseModel.OpeningLean], first[PulseModel.OpeningRoundness]);
        (model.Parameters[PulseModel.ClosingLean], model.Parameters[PulseModel.ClosingRoundness]) = (second[PulseModel.OpeningLean], second[PulseModel.OpeningRoundness]);
        var (mean, unrest) = Plateau(model[PulseModel.T1], model[PulseModel.T2]);
        model.Parameters[PulseModel.Height] = mean - (first[PulseModel.Closed] + second[PulseModel.Closed]) / 2;
        if (!(model[PulseModel.Height] > 0)) return null;
        return new()
        {
            Model = model,
            Opening50 = LocalCrossing.Of(values, up.Value.Model, model.OpeningAt(0.5), noise),
            Closing50 = last - LocalCrossing.Of(reversed, down.Value.Model, last - model.ClosingAt(0.5), noise),
            WidthUncertainty = Math.Sqrt(up.Value.Variance + down.Value.Variance),
            LevelUncertainty = noise / Math.Sqrt(Math.Max(1, Math.Min(model[PulseModel.T2] - model[PulseModel.T1], In(MarginSeconds)))),
            DwellUncertainty = Math.Sqrt(up.Value.Variance + down.Value.Variance),
            Left = Math.Max(up.Value.Left, down.Value.Left),
            PlateauUnrest = unrest,
            IsLong = true,
            Bounces = bounces,
        };
    }

    /// <summary>One rising edge with levels of its own, in samples of the array given.</summary>
    private (PulseModel Model, double Variance, double Left)? Edge(
        double[] signal, double[] quiet, (int From, int To) about, int plateau, IReadOnlyList<BounceFinder.Span> bounces)
    {
        var side = In(0.0015);
        var before = Smooth.MeanOf(signal, about.From - side, about.From);
        var after = Smooth.MeanOf(signal, about.To, about.To + Math.Min(side, Math.Max(2, plateau / 2)));
        var height = after - before;
        if (!(height > 3 * noise / Math.Sqrt(side))) return null;
        var middle = before + height / 2;
        // From the middle of the change to where it passes half, whichever side that lies on.
        var centre = Math.Clamp((about.From + about.To) / 2, 0, signal.Length - 1);
        var half = quiet[centre] > middle ? Smooth.FallsBelow(quiet, centre, -1, middle) : Smooth.RisesAbove(quiet, centre, 1, middle);
        var low = Smooth.FallsBelow(quiet, (int)half, -1, before + 0.15 * height);
        var high = Smooth.RisesAbove(quiet, (int)Math.Ceiling(half), 1, before + 0.85 * height);
        var ramp = Math.Max(2, (high - low) / 0.7);
        var start = Math.Max(0, (int)(half - ramp - In(MarginSeconds)));
        var end = Math.Min(signal.Length, (int)(half + ramp + Math.Min(In(PlateauSeconds), Math.Max(4, 0.8 * plateau))));
        if (end - start < 12) return null;
        var guess = Guess(height, half - ramp / 2 - start, half + ramp / 2 - start, 1e12, 2e12);
        guess.Parameters[PulseModel.Closed] = before;
        var part = signal[start..end];
        var fit = PulseFit.OpeningOnly(part, Skip(bounces, start, end), guess, noise);
        var spread = Uncertainty(fit, m => m.OpeningAt(0.5));
        var model = Shifted(fit.Model, start);
        return (model, spread * spread, BlockRms(signal, model, start, end, bounces));
    }

    private double[] Lowered(double from, double closed)
    {
        var lowered = (double[])values.Clone();
        for (var i = Math.Max(0, (int)from); i < lowered.Length; i++) lowered[i] -= closed;
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

    private static PulseModel Guess(double level, double t0, double t1, double t2, double t3) => new()
    {
        Parameters = [0, level, t0, t1, t2, t3, EdgeShape.UsualLean, EdgeShape.UsualRoundness, EdgeShape.UsualLean, EdgeShape.UsualRoundness],
    };

    private static PulseModel Shifted(PulseModel model, double by)
    {
        var moved = (double[])model.Parameters.Clone();
        for (var i = PulseModel.T0; i <= PulseModel.T3; i++) moved[i] += by;
        return new() { Parameters = moved };
    }

    private static bool[] Skip(IReadOnlyList<BounceFinder.Span> bounces, int start, int end)
    {
        var skip = new bool[end - start];
        foreach (var bounce in bounces)
            for (var i = Math.Max(start, bounce.From); i < Math.Min(end, bounce.To); i++)
                skip[i - start] = true;
        return skip;
    }

    private static double Uncertainty(PulseFit.Result fit, Func<PulseModel, double> figure)
    {
        var slopes = new double[PulseModel.Size];
        var middle = figure(fit.Model);
        for (var i = 0; i < PulseModel.Size; i++)
        {
            const double step = 1e-4;
            var moved = (double[])fit.Model.Parameters.Clone();
            moved[i] += step;
            slopes[i] = (figure(new() { Parameters = moved }) - middle) / step;
        }

        double variance = 0;
        for (var i = 0; i < PulseModel.Size; i++)
            for (var j = 0; j < PulseModel.Size; j++)
                variance += slopes[i] * fit.Covariance[i, j] * slopes[j];
        return Math.Sqrt(Math.Max(0, variance));
    }

    private double Left(PulseModel model, double from, double to, IReadOnlyList<BounceFinder.Span> bounces) =>
        BlockRms(values, model, Math.Max(0, (int)from), Math.Min(values.Length, (int)to), bounces);

    private double BlockRms(double[] signal, PulseModel model, int from, int to, IReadOnlyList<BounceFinder.Span> bounces)
    {
        var length = In(BlockSeconds);
        double squares = 0;
        var count = 0;
        for (var i = from; i + length <= to; i += length)
        {
            if (bounces.Any(b => i < b.To && i + length > b.From)) continue;
            double sum = 0;
            for (var j = i; j < i + length; j++) sum += signal[j] - model.Value(j);
            squares += sum * sum / length / length;
            count++;
        }

        return Math.Sqrt(squares / Math.Max(1, count));
    }

    /// <summary>Mean of the plateau and the unrest of its blocks about a straight line.</summary>
    private (double Mean, double Unrest) Plateau(double from, double to)
    {
        var length = In(BlockSeconds);
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
