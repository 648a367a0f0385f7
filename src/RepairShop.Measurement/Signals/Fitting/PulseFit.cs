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

    /// <summary>By how much a slope at an edge's foot must lower it: Schwarz's ln n for one term, with the few hundred samples of an edge.</summary>
    private const double SlopeWorth = 6;

    /// <summary>A foot steeper than this share of the edge's mean slope is not level.</summary>
    private const double SteepFoot = 0.4;

    private readonly double[] values;
    private readonly bool[] skip;
    private readonly bool[] free;
    private readonly double weight;
    private readonly bool tied;
    private readonly OpenLevel? held;

    /// <summary>Shapes whose foot is level.</summary>
    private readonly IReadOnlyList<int> level;

    private PulseFit(double[] values, bool[] skip, bool[] free, double noise, bool tied, OpenLevel? held, IReadOnlyList<int> level)
    {
        (this.values, this.skip, this.free, weight, this.tied, this.held, this.level) = (values, skip, free, 1 / (noise * noise), tied, held, level);
        foreach (var shape in level) free[LevelFoot.Following(shape)] = false;
    }

    /// <summary>Edges fitted with the terms for kinks.</summary>
    [Flags]
    private enum Kinks
    {
        None = 0,
        Opening = 1,
        Closing = 2,
    }

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
        PulseFit With(bool tied, Kinks kinks, IReadOnlyList<int> level) => new(values, skip, Free(closing: true, kinks), noise, tied, held, level);
        var loose = With(tied: false, Kinks.None, []).Run(guess);
        var (best, isTied) = (loose, false);
        var dwell = loose.Model[PulseModel.T2] - loose.Model[PulseModel.T1];
        if (dwell <= ShortRest * (loose.Model[PulseModel.T3] - loose.Model[PulseModel.T0]))
        {
            var turning = (double[])loose.Model.Parameters.Clone();
            turning[PulseModel.T1] = turning[PulseModel.T2] = (turning[PulseModel.T1] + turning[PulseModel.T2]) / 2;
            var tied = With(tied: true, Kinks.None, []).Run(new() { Parameters = turning });
            // A plateau is one parameter more: it must explain more than noise would give it.
            if (tied.Cost < loose.Cost + PlateauWorth) (best, isTied) = (tied, true);
        }

        var kinks = Kinks.None;
        var both = With(isTied, Kinks.Opening | Kinks.Closing, []).Run(best.Model);
        if (both.Cost < best.Cost - 1.5 * KinkWorth)
        {
            var plain = best;
            (best, kinks) = (both, Kinks.Opening | Kinks.Closing);
            // Terms an edge has no need of take away certainty and give nothing: where one edge's explain as much alone, the other goes without.
            var most = Math.Min(plain.Cost - KinkWorth, both.Cost + KinkWorth);
            foreach (var one in (ReadOnlySpan<Kinks>)[Kinks.Opening, Kinks.Closing])
            {
                var alone = With(isTied, one, []).Run(plain.Model);
                if (alone.Cost < most) (best, kinks, most) = (alone, one, alone.Cost);
            }
        }

        return Settled(best, [PulseModel.OpeningShape, PulseModel.ClosingShape], level => With(isTied, kinks, level));
    }

    /// <summary>Fits an opening alone: the values end before the closing begins.</summary>
    public static Result OpeningOnly(double[] values, bool[] skip, PulseModel guess, double noise)
    {
        PulseFit With(Kinks kinks, IReadOnlyList<int> level) => new(values, skip, Free(closing: false, kinks), noise, tied: false, null, level);
        var plain = With(Kinks.None, []).Run(guess);
        var kinked = With(Kinks.Opening, []).Run(plain.Model);
        var hasKinks = kinked.Cost < plain.Cost - KinkWorth;
        return Settled(hasKinks ? kinked : plain, [PulseModel.OpeningShape], level => With(hasKinks ? Kinks.Opening : Kinks.None, level));
    }

    /// <summary>Where an edge's foot is nearly level and the samples do not ask for a slope there, it is level.</summary>
    private static Result Settled(Result best, ReadOnlySpan<int> shapes, Func<IReadOnlyList<int>, PulseFit> with)
    {
        IReadOnlyList<int> level = [];
        foreach (var shape in shapes)
        {
            if (LevelFoot.Slope(best.Model.Parameters, shape) > SteepFoot) continue;
            IReadOnlyList<int> more = [.. level, shape];
            var settled = with(more).Run(best.Model);
            if (settled.Cost < best.Cost + SlopeWorth) (best, level) = (settled, more);
        }

        return best;
    }

    private static bool[] Free(bool closing, Kinks kinks)
    {
        var free = new bool[PulseModel.Size];
        free[PulseModel.Closed] = free[PulseModel.Height] = free[PulseModel.T0] = free[PulseModel.T1] = true;
        free[PulseModel.T2] = free[PulseModel.T3] = closing;
        for (var k = 0; k < EdgeShape.Count; k++)
        {
            free[PulseModel.OpeningShape + k] = k < EdgeShape.Plain || kinks.HasFlag(Kinks.Opening);
            free[PulseModel.ClosingShape + k] = closing && (k < EdgeShape.Plain || kinks.HasFlag(Kinks.Closing));
        }

        return free;
    }

    private Result Run(PulseModel guess)
    {
        var now = Bounded(guess.Parameters);
        var damping = 1e-3;
        int[] places = [.. Enumerable.Range(0, PulseModel.Size).Where(IsFree)];
        var (damped, step) = (new double[places.Length, places.Length], new double[places.Length]);
        var (normal, right) = (new double[PulseModel.Size, PulseModel.Size], new double[PulseModel.Size]);
        var (nextNormal, nextRight) = (new double[PulseModel.Size, PulseModel.Size], new double[PulseModel.Size]);
        var cost = Linearise(now, normal, right);
        for (var round = 0; round < MostRounds; round++)
        {
            Pick(normal, places, damped);
            for (var i = 0; i < places.Length; i++)
            {
                damped[i, i] += damping * damped[i, i] + 1e-12;
                step[i] = right[places[i]];
            }

            Dense.SolveInPlace(damped, step);
            var next = (double[])now.Clone();
            for (var i = 0; i < places.Length; i++) next[places[i]] += step[i];
            next = Bounded(next);
            var nextCost = Linearise(next, nextNormal, nextRight);
            if (nextCost < cost)
            {
                var done = cost - nextCost < 1e-8 * cost + 1e-5;
                (now, cost, normal, nextNormal, right, nextRight) = (next, nextCost, nextNormal, normal, nextRight, right);
                damping = Math.Max(1e-9, damping / 8);
                if (done && round > 2) break;
            }
            else
            {
                damping *= 6;
                if (damping > 1e8) break;
            }
        }

        return new(new() { Parameters = now }, Covariance(normal, places, damped), cost);
    }

    /// <summary>The rows and columns of the parameters that are free.</summary>
    private static void Pick(double[,] normal, int[] places, double[,] picked)
    {
        for (var i = 0; i < places.Length; i++)
            for (var j = 0; j < places.Length; j++) picked[i, j] = normal[places[i], places[j]];
    }

    /// <summary>Covariance of all parameters: what is not free has none, but for what follows from others.</summary>
    private double[,] Covariance(double[,] normal, int[] places, double[,] picked)
    {
        Pick(normal, places, picked);
        for (var i = 0; i < places.Length; i++) picked[i, i] += 1e-12;
        var inverse = Dense.Inverse(picked);
        var covariance = new double[PulseModel.Size, PulseModel.Size];
        for (var i = 0; i < places.Length; i++)
            for (var j = 0; j < places.Length; j++) covariance[places[i], places[j]] = inverse[i, j];
        foreach (var shape in level) LevelFoot.Spread(covariance, shape);
        if (!tied) return covariance;
        for (var i = 0; i < PulseModel.Size; i++) covariance[i, PulseModel.T2] = covariance[i, PulseModel.T1];
        for (var i = 0; i < PulseModel.Size; i++) covariance[PulseModel.T2, i] = covariance[PulseModel.T1, i];
        return covariance;
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
        foreach (var shape in level) LevelFoot.Follow(q, shape);
        if (q[PulseModel.T1] > q[PulseModel.T2]) q[PulseModel.T1] = q[PulseModel.T2] = (q[PulseModel.T1] + q[PulseModel.T2]) / 2;
        q[PulseModel.T0] = Math.Min(q[PulseModel.T0], q[PulseModel.T1] - PulseModel.LeastEdge);
        q[PulseModel.T3] = Math.Max(q[PulseModel.T3], q[PulseModel.T2] + PulseModel.LeastEdge);
        return q;
    }

    /// <summary>Cost at a place, in units of the noise's variance, with its normal matrix and right side.</summary>
    private double Linearise(double[] at, double[,] normal, double[] right)
    {
        Array.Clear(normal);
        Array.Clear(right);
        var model = new PulseModel { Parameters = at };
        Span<double> slopes = stackalloc double[PulseModel.Size];
        // Gathered on the stack, row by row: this is the innermost loop of the analysis.
        Span<double> sums = stackalloc double[PulseModel.Size * PulseModel.Size];
        sums.Clear();
        var opening = Edge(stackalloc int[PulseModel.Size], PulseModel.OpeningShape, PulseModel.T0, PulseModel.T1);
        var closing = Edge(stackalloc int[PulseModel.Size], PulseModel.ClosingShape, tied ? PulseModel.T1 : PulseModel.T2, PulseModel.T3);
        var (openingIsLevel, closingIsLevel) = (level.Contains(PulseModel.OpeningShape), level.Contains(PulseModel.ClosingShape));
        // Off the edges only the two levels have a slope, and most samples lie there: these sums are made at the end.
        double cost = 0, n = 0, h = 0, hh = 0, r = 0, rh = 0;
        for (var i = 0; i < values.Length; i++)
        {
            if (skip[i]) continue;
            var (value, shape) = model.At(i, slopes);
            var left = values[i] - value;
            cost += left * left;
            if (shape != 0)
            {
                if (shape == PulseModel.OpeningShape) AddEdge(sums, right, slopes, left, shape, opening, openingIsLevel);
                else AddEdge(sums, right, slopes, left, shape, closing, closingIsLevel);
            }
            else
            {
                var height = slopes[PulseModel.Height];
                (n, h, hh, r, rh) = (n + 1, h + height, hh + height * height, r + left, rh + height * left);
            }
        }

        for (var i = 0; i < PulseModel.Size; i++)
            for (var j = i; j < PulseModel.Size; j++) normal[i, j] = sums[i * PulseModel.Size + j];
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
        if (held is { } open) cost += Hold(at, PulseModel.Height, open.Value, open.StandardUncertainty, normal, right);
        for (var k = 0; k < EdgeShape.Count; k++)
            foreach (var shape in (ReadOnlySpan<int>)[PulseModel.OpeningShape, PulseModel.ClosingShape])
                cost += Hold(at, shape + k, EdgeShape.Usual[k], EdgeShape.Spread[k], normal, right);
        foreach (var shape in level) cost += LevelFoot.Hold(at, shape, free, normal, right);
        return cost;
    }

    /// <summary>The parameters a sample on an edge has slopes with.</summary>
    private ReadOnlySpan<int> Edge(Span<int> places, int shape, int first, int second)
    {
        var count = 0;
        foreach (var i in (ReadOnlySpan<int>)[PulseModel.Closed, PulseModel.Height, Math.Min(first, second), Math.Max(first, second)])
            if (free[i]) places[count++] = i;
        for (var i = shape; i < shape + EdgeShape.Count; i++)
            if (free[i]) places[count++] = i;
        return places[..count];
    }

    /// <summary>Adds a sample on an edge to the sums.</summary>
    private void AddEdge(Span<double> sums, double[] right, Span<double> slopes, double left, int shape, ReadOnlySpan<int> places, bool isLevel)
    {
        if (tied)
        {
            slopes[PulseModel.T1] += slopes[PulseModel.T2];
            slopes[PulseModel.T2] = 0;
        }

        if (isLevel) LevelFoot.Fold(slopes.Slice(shape, EdgeShape.Count));
        for (var a = 0; a < places.Length; a++)
        {
            var slope = slopes[places[a]];
            right[places[a]] += slope * left;
            var row = sums.Slice(places[a] * PulseModel.Size, PulseModel.Size);
            for (var b = a; b < places.Length; b++) row[places[b]] += slope * slopes[places[b]];
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
