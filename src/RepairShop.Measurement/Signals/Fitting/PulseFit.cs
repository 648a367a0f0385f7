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
    /// <param name="Left">Root mean square of what it leaves.</param>
    /// <param name="Covariance">Covariance of its parameters.</param>
    /// <param name="Cost">Sum of squares left, in units of the noise's variance, and what holding the shapes costs.</param>
    public sealed record Result(PulseModel Model, double Left, double[,] Covariance, double Cost);

    /// <summary>Fits opening and closing together; where they run into each other there is no plateau.</summary>
    /// <param name="values">Samples around it.</param>
    /// <param name="skip">Samples to leave out.</param>
    /// <param name="guess">Where to begin.</param>
    /// <param name="noise">Standard deviation of a sample's noise.</param>
    /// <param name="held">A height known from elsewhere; null leaves it to the samples.</param>
    public static Result Both(double[] values, bool[] skip, PulseModel guess, double noise, OpenLevel? held)
    {
        var all = new bool[PulseModel.Size];
        Array.Fill(all, true);
        var loose = new PulseFit(values, skip, all, noise, tied: false, held).Run(guess);
        var dwell = loose.Model[PulseModel.T2] - loose.Model[PulseModel.T1];
        if (dwell > ShortRest * (loose.Model[PulseModel.T3] - loose.Model[PulseModel.T0])) return loose;
        var turning = (double[])loose.Model.Parameters.Clone();
        turning[PulseModel.T1] = turning[PulseModel.T2] = (turning[PulseModel.T1] + turning[PulseModel.T2]) / 2;
        var tied = new PulseFit(values, skip, all, noise, tied: true, held).Run(new() { Parameters = turning });
        // A plateau is one parameter more: it must explain more than noise would give it.
        return tied.Cost < loose.Cost + PlateauWorth ? tied : loose;
    }

    /// <summary>Fits an opening alone: the values end before the closing begins.</summary>
    public static Result OpeningOnly(double[] values, bool[] skip, PulseModel guess, double noise)
    {
        bool[] free = [true, true, true, true, false, false, true, true, false, false];
        return new PulseFit(values, skip, free, noise, tied: false).Run(guess);
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
            var next = Bounded([.. now.Select((value, i) => value + (IsFree(i) ? step[i] : 0))]);
            var (nextNormal, nextRight) = (new double[PulseModel.Size, PulseModel.Size], new double[PulseModel.Size]);
            var nextCost = Linearise(next, nextNormal, nextRight);
            if (nextCost < cost)
            {
                var done = cost - nextCost < 1e-7 * cost + 1e-4;
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

        return Finish(now, normal, cost);
    }

    private Result Finish(double[] now, double[,] normal, double cost)
    {
        var model = new PulseModel { Parameters = now };
        double squares = 0;
        var count = 0;
        for (var i = 0; i < values.Length; i++)
        {
            if (skip[i]) continue;
            var left = values[i] - model.Value(i);
            squares += left * left;
            count++;
        }

        for (var i = 0; i < PulseModel.Size; i++) normal[i, i] += IsFree(i) ? 1e-12 : 1e12;
        return new(model, Math.Sqrt(squares / Math.Max(1, count)), Dense.Inverse(normal), cost);
    }

    private bool IsFree(int i) => free[i] && !(tied && i == PulseModel.T2);

    private double[] Bounded(double[] p)
    {
        var q = (double[])p.Clone();
        if (tied) q[PulseModel.T2] = q[PulseModel.T1];
        var opening = new EdgeShape(q[PulseModel.OpeningLean], q[PulseModel.OpeningRoundness]).Clamped;
        var closing = new EdgeShape(q[PulseModel.ClosingLean], q[PulseModel.ClosingRoundness]).Clamped;
        (q[PulseModel.OpeningLean], q[PulseModel.OpeningRoundness]) = (opening.Lean, opening.Roundness);
        (q[PulseModel.ClosingLean], q[PulseModel.ClosingRoundness]) = (closing.Lean, closing.Roundness);
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
        double cost = 0;
        for (var n = 0; n < values.Length; n++)
        {
            if (skip[n]) continue;
            var left = values[n] - model.At(n, slopes);
            cost += weight * left * left;
            if (tied)
            {
                slopes[PulseModel.T1] += slopes[PulseModel.T2];
                slopes[PulseModel.T2] = 0;
            }

            for (var i = 0; i < PulseModel.Size; i++)
            {
                if (slopes[i] == 0 || !free[i]) continue;
                var weighted = weight * slopes[i];
                right[i] += weighted * left;
                for (var j = i; j < PulseModel.Size; j++)
                    if (free[j]) normal[i, j] += weighted * slopes[j];
            }
        }

        for (var i = 0; i < PulseModel.Size; i++)
            for (var j = 0; j < i; j++)
                normal[i, j] = normal[j, i];
        if (held is { } level) cost += Hold(at, PulseModel.Height, level.Value, level.StandardUncertainty, normal, right);
        cost += Hold(at, PulseModel.OpeningLean, EdgeShape.UsualLean, EdgeShape.LeanSpread, normal, right);
        cost += Hold(at, PulseModel.ClosingLean, EdgeShape.UsualLean, EdgeShape.LeanSpread, normal, right);
        cost += Hold(at, PulseModel.OpeningRoundness, EdgeShape.UsualRoundness, EdgeShape.RoundnessSpread, normal, right);
        cost += Hold(at, PulseModel.ClosingRoundness, EdgeShape.UsualRoundness, EdgeShape.RoundnessSpread, normal, right);
        return cost;
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
