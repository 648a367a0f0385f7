namespace RepairShop.Testing.Signals;

/// <summary>
/// What an RC high-pass makes of a profile, in continuous time: y′ + y/τ = x′. For a polynomial x the answer is a polynomial plus an
/// exponential, so each piece is exact; steps between pieces pass through unchanged.
/// </summary>
public sealed class HighPass
{
    private readonly List<(double Start, double[] Steady, double Amplitude)> pieces = [];
    private readonly double tau;

    public HighPass(IEnumerable<ShutterProfile> profiles, double tauSeconds)
    {
        tau = tauSeconds;
        double now = double.NegativeInfinity, y = 0, x = 0;
        foreach (var piece in profiles.SelectMany(p => p.Pieces).OrderBy(p => p.Start))
        {
            if (piece.Start > now)
            {
                if (!double.IsNegativeInfinity(now)) Enter(now, [0], 0, ref x, ref y);
                y = double.IsNegativeInfinity(now) ? 0 : y * Math.Exp(-(piece.Start - now) / tau);
            }

            Enter(piece.Start, piece.Coefficients, piece.At(piece.Start), ref x, ref y);
            now = piece.End;
            y = At(now, pieces[^1]);
            x = piece.At(now);
        }

        if (!double.IsNegativeInfinity(now)) Enter(now, [0], 0, ref x, ref y);
    }

    public double At(double t)
    {
        var (low, high) = (0, pieces.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (pieces[middle].Start <= t) low = middle + 1;
            else high = middle;
        }

        return low == 0 ? 0 : At(t, pieces[low - 1]);
    }

    /// <summary>Adds the answer times a factor to samples taken from time 0 on.</summary>
    public void AddTo(double[] values, double sampleRateHz, double factor)
    {
        for (var i = 0; i < pieces.Count; i++)
        {
            var (start, steady, amplitude) = pieces[i];
            var from = FirstAt(start, sampleRateHz);
            var to = i + 1 < pieces.Count ? Math.Min(values.Length, FirstAt(pieces[i + 1].Start, sampleRateHz)) : values.Length;
            if (to <= from) continue;
            // One exponential a piece; over a minute at 192 kHz the products' rounding stays below 1e-9.
            var decay = amplitude * Math.Exp(-(from / sampleRateHz - start) / tau);
            var ratio = Math.Exp(-1 / (tau * sampleRateHz));
            for (var n = from; n < to; n++, decay *= ratio)
                values[n] += factor * (BladeLaw.Polynomial(steady, n / sampleRateHz - start) + decay);
        }
    }

    /// <summary>The first sample at or after a time.</summary>
    public static int FirstAt(double seconds, double sampleRateHz) => Math.Max(0, (int)Math.Ceiling(seconds * sampleRateHz));

    private double At(double t, (double Start, double[] Steady, double Amplitude) piece) =>
        BladeLaw.Polynomial(piece.Steady, t - piece.Start) + piece.Amplitude * Math.Exp(-(t - piece.Start) / tau);

    private void Enter(double start, double[] coefficients, double value, ref double x, ref double y)
    {
        y += value - x;
        x = value;
        // q + τq′ = τp′ is solved by q = τp′ − τ²p″ + τ³p‴ − …
        var steady = new double[Math.Max(1, coefficients.Length)];
        var (derivative, factor) = (Derivative(coefficients), tau);
        while (derivative.Length > 0)
        {
            for (var i = 0; i < derivative.Length; i++) steady[i] += factor * derivative[i];
            (derivative, factor) = (Derivative(derivative), -factor * tau);
        }

        pieces.Add((start, steady, y - steady[0]));
    }

    private static double[] Derivative(double[] c) => c.Length <= 1 ? [] : [.. c.Skip(1).Select((value, i) => value * (i + 1))];
}
