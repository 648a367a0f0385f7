namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>
/// Least squares of a <see cref="PulseModel"/> on samples (Levenberg–Marquardt), with the shapes held near the usual ones as strongly as the
/// noise leaves them unsure: one estimate serves quiet and noisy recordings.
/// </summary>
internal sealed class PulseFit
{
    private const int MostRounds = 40;

    /// <summary>A rest shorter than this share of the whole is tried without.</summary>
    private const double ShortRest = 0.25;

    /// <summary>By how much a plateau must lower the cost, in units of the noise's variance.</summary>
    private const double PlateauWorth = 4;

    /// <summary>By how much the five terms of one edge for kinks must lower it: Akaike's two a term.</summary>
    private const double KinkWorth = 10;

    private readonly double[] values;
    private readonly bool[] skip;
    private readonly bool[] free;
    private readonly double weight;
    private readonly bool tied;
    private readonly OpenLevel? held;

    private PulseFit(double[] values, bool[] skip, bool[] free, double noise, bool tied, OpenLevel? held = null) =>
        (this.values, this.skip, this.free, weight, this.tied, this.held) = (values, skip, free, 1 / (noise * noise), tied, held);

    /// <summary>The result of a fit.</summary>
    /// <param name="Model">The best model.</param>
    /// <param name="Covariance">Covariance of its parameters.</param>
    /// <param name="Cost">Sum of squares left, in units of the noise's variance, and what holding the shapes costs.</param>
    public sealed record Result(PulseModel Model, double[,] Covariance, double Cost);

    /// <summary>Fits opening and closing together; where they run into each other there is no plateau.</summary>
    /// <param name="values">Samples around it.</param>
    /// <param name="skip">Samples to leave out.</param>
    /// <param name="guess">Where to begin.</param>
    /// <param name="noise">Standard deviation of a sample's noise.</param>
    /// <param name="held">A height known from elsewhere; null leaves it to the samples.</param>
    public static Result Both(double[] values, bool[] skip, PulseModel guess, double noise, OpenLevel? held)
    {
        PulseFit With(bool tied, bool kinks) => new(values, skip, Free(closing: true, kinks), noise, tied, held);
        var loose = With(tied: false, kinks: false).Run(guess);
        var (best, isTied) = (loose, false);
        var dwell = loose.Model[PulseModel.T2] - loose.Model[PulseModel.T1];
        if (dwell <= ShortRest * (loose.Model[PulseModel.T3] - loose.Model[PulseModel.T0]))
        {
            var turning = (double[])loose.Model.Parameters.Clone();
            turning[PulseModel.T1] = turning[PulseModel.T2] = (turning[PulseModel.T1] + turning[PulseModel.T2]) / 2;
            var tied = With(tied: true, kinks: false).Run(new() { Parameters = turning });
            // A plateau is one parameter more: it must explain more than noise would give it.
            if (tied.Cost < loose.Cost + PlateauWorth) (best, isTied) = (tied, true);
        }

        var kinked = With(isTied, kinks: true).Run(best.Model);
        return kinked.Cost < best.Cost - 1.5 * KinkWorth ? kinked : best;
    }

    /// <summary>Fits an opening alone: the values end before the closing begins.</summary>
    public static Result OpeningOnly(double[] values, bool[] skip, PulseModel guess, double noise)
    {
        var plain = new PulseFit(values, skip, Free(closing: false, kinks: false), noise, tied: false).Run(guess);
        var kinked = new PulseFit(values, skip, Free(closing: false, kinks: true), noise, tied: false).Run(plain.Model);
        return kinked.Cost < plain.Cost - KinkWorth ? kinked : plain;
    }

    private static bool[] Free(bool closing, bool kinks)
    {
        var free = new bool[PulseModel.Size];
        free[PulseModel.Closed] = free[PulseModel.Height] = free[PulseModel.T0] = free[PulseModel.T1] = true;
        free[PulseModel.T2] = free[PulseModel.T3] = closing;
        for (var k = 0; k < (kinks ? EdgeShape.Count : EdgeShape.Plain); k++)
        {
            free[PulseModel.OpeningShape + k] = true;
            free[PulseModel.ClosingShape + k] = closing;
        }

        return free;
    }

    private Result Run(PulseModel guess)
    {
        var now = Bounded(guess.Parameters);
        var damping = 1e-3;
        var (normal, right) = (new double[PulseModel.Size, PulseModel.Size], new double[PulseModel.Size]);
        var cost = Linearise(now, normal, right);
        for (var round = 0; round < MostRounds; round++)
        {
            var damped = (double[,])normal.Clone();
            for (var i = 0; i < PulseModel.Size; i++) damped[i, i] += damping * normal[i, i] + (IsFree(i) ? 1e-12 : 1);
            var step = Dense.Solve(damped, right);
            var next = (double[])now.Clone();
            for (var i = 0; i < next.Length; i++)
                if (IsFree(i)) next[i] += step[i];
            next = Bounded(next);
            var (nextNormal, nextRight) = (new double[PulseModel.Size, PulseModel.Size], new double[PulseModel.Size]);
            var nextCost = Linearise(next, nextNormal, nextRight);
            if (nextCost < cost)
            {
                var done = cost - nextCost < 1e-8 * cost + 1e-5;
                (now, cost, normal, right) = (next, nextCost, nextNormal, nextRight);
                damping = Math.Max(1e-9, damping / 8);
                if (done && round > 2) break;
            }
            else
            {
                damping *= 6;
                if (damping > 1e8) break;
            }
        }

        for (var i = 0; i < PulseModel.Size; i++) normal[i, i] += IsFree(i) ? 1e-12 : 1e12;
        return new(new() { Parameters = now }, Dense.Inverse(normal), cost);
    }

    private bool IsFree(int i) => free[i] && !(tied && i == PulseModel.T2);

    /// <summary>Brings the parameters back within what a shutter can do, in place.</summary>
    private double[] Bounded(double[] p)
    {
        var q = (double[])p.Clone();
        if (tied) q[PulseModel.T2] = q[PulseModel.T1];
        for (var k = 0; k < EdgeShape.Count; k++)
            foreach (var shape in (ReadOnlySpan<int>)[PulseModel.OpeningShape, PulseModel.ClosingShape])
                q[shape + k] = Math.Clamp(q[shape + k], -EdgeShape.Most[k], EdgeShape.Most[k]);
        if (q[PulseModel.T1] > q[PulseModel.T2]) q[PulseModel.T1] = q[PulseModel.T2] = (q[PulseModel.T1] + q[PulseModel.T2]) / 2;
        q[PulseModel.T0] = Math.Min(q[PulseModel.T0], q[PulseModel.T1] - PulseModel.LeastEdge);
        q[PulseModel.T3] = Math.Max(q[PulseModel.T3], q[PulseModel.T2] + PulseModel.LeastEdge);
        return q;
    }

    /// <summary>Cost at a place, in units of the noise's variance, with its normal matrix and right side.</summary>
    private double Linearise(double[] at, double[,] normal, double[] right)
    {
        var model = new PulseModel { Parameters = at };
        Span<double> slopes = stackalloc double[PulseModel.Size];
        // Off the edges only the two levels have a slope, and most samples lie there: these sums are made at the end.
        double cost = 0, n = 0, h = 0, hh = 0, r = 0, rh = 0;
        for (var i = 0; i < values.Length; i++)
        {
            if (skip[i]) continue;
            var (value, shape) = model.At(i, slopes);
            var left = values[i] - value;
            cost += left * left;
            if (shape != 0) AddEdge(normal, right, slopes, left, shape);
            else
            {
                var height = slopes[PulseModel.Height];
                (n, h, hh, r, rh) = (n + 1, h + height, hh + height * height, r + left, rh + height * left);
            }
        }

        normal[PulseModel.Closed, PulseModel.Closed] += n;
        normal[PulseModel.Closed, PulseModel.Height] += h;
        normal[PulseModel.Height, PulseModel.Height] += hh;
        right[PulseModel.Closed] += r;
        right[PulseModel.Height] += rh;
        for (var i = 0; i < PulseModel.Size; i++)
        {
            right[i] *= weight;
            for (var j = i; j < PulseModel.Size; j++) normal[j, i] = normal[i, j] *= weight;
        }

        cost *= weight;
        if (held is { } level) cost += Hold(at, PulseModel.Height, level.Value, level.StandardUncertainty, normal, right);
        for (var k = 0; k < EdgeShape.Count; k++)
            foreach (var shape in (ReadOnlySpan<int>)[PulseModel.OpeningShape, PulseModel.ClosingShape])
                cost += Hold(at, shape + k, EdgeShape.Usual[k], EdgeShape.Spread[k], normal, right);
        return cost;
    }

    /// <summary>Adds a sample on an edge to the sums.</summary>
    private void AddEdge(double[,] normal, double[] right, Span<double> slopes, double left, int shape)
    {
        if (tied)
        {
            slopes[PulseModel.T1] += slopes[PulseModel.T2];
            slopes[PulseModel.T2] = 0;
        }

        Span<int> places = stackalloc int[PulseModel.Size];
        var count = 0;
        for (var i = 0; i < PulseModel.OpeningShape; i++)
            if (free[i] && slopes[i] != 0) places[count++] = i;
        for (var i = shape; i < shape + EdgeShape.Count; i++)
            if (free[i]) places[count++] = i;
        for (var a = 0; a < count; a++)
        {
            var slope = slopes[places[a]];
            right[places[a]] += slope * left;
            for (var b = a; b < count; b++) normal[places[a], places[b]] += slope * slopes[places[b]];
        }
    }

    private double Hold(double[] at, int index, double usual, double spread, double[,] normal, double[] right)
    {
        if (!free[index]) return 0;
        var away = (usual - at[index]) / spread;
        normal[index, index] += 1 / (spread * spread);
        right[index] += away / spread;
        return away * away;
    }
}
