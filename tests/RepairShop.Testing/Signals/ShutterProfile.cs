namespace RepairShop.Testing.Signals;

/// <summary>
/// Light through a shutter in continuous time, as polynomial pieces, with its true figures in closed form. Times in seconds, 1 is fully open.
/// </summary>
public sealed class ShutterProfile
{
    private readonly List<Piece> pieces = [];

    /// <summary>Value from Start to End as a polynomial in the time since Start.</summary>
    public readonly record struct Piece(double Start, double End, double[] Coefficients)
    {
        public double At(double t) => BladeLaw.Polynomial(Coefficients, t - Start);

        public double Integral
        {
            get
            {
                double sum = 0;
                for (var i = 0; i < Coefficients.Length; i++) sum += Coefficients[i] * Math.Pow(End - Start, i + 1) / (i + 1);
                return sum;
            }
        }
    }

    public IReadOnlyList<Piece> Pieces => pieces;

    public double StartSeconds { get; private init; }

    public double EndOfOpeningSeconds { get; private init; }

    public double BeginOfClosingSeconds { get; private init; }

    public double CloseSeconds { get; private init; }

    /// <summary>Height reached: 1 where it rests fully open.</summary>
    public double Peak { get; private init; } = 1;

    public double MainEffectiveSeconds { get; private set; }

    /// <summary>∫E dt, with the light of bounces.</summary>
    public double EffectiveSeconds => pieces.Sum(p => p.Integral);

    public double TotalSeconds => CloseSeconds - StartSeconds;

    public double Width50Seconds => Crossing(0.5, opening: false) - Crossing(0.5, opening: true);

    public double OpeningSeconds => Crossing(0.9, opening: true) - Crossing(0.1, opening: true);

    public double ClosingSeconds => Crossing(0.1, opening: false) - Crossing(0.9, opening: false);

    public double LastSeconds => pieces[^1].End;

    /// <summary>One release.</summary>
    /// <param name="start">First opening.</param>
    /// <param name="opening">Time the blades take for their whole run open.</param>
    /// <param name="dwell">How long they rest there; not used where <paramref name="reach"/> is below 1.</param>
    /// <param name="closing">Time for the whole run back.</param>
    /// <param name="openingLaw">Light over the opening run.</param>
    /// <param name="closingLaw">Light over the closing run, read backwards.</param>
    /// <param name="reach">The share of the run after which the blades turn back; 1 reaches fully open.</param>
    /// <param name="bounce">Delay after closing, height and duration of a bounce, if any.</param>
    public static ShutterProfile Of(
        double start, double opening, double dwell, double closing, BladeLaw openingLaw, BladeLaw closingLaw,
        double reach = 1, (double Delay, double Height, double Duration)? bounce = null)
    {
        var up = opening * reach;
        var rest = reach < 1 ? 0 : dwell;
        // The closing run starts at the light the opening reached.
        var back = reach < 1 ? Share(closingLaw, openingLaw.At(reach)) : 1;
        var down = closing * back;
        var profile = new ShutterProfile
        {
            StartSeconds = start,
            EndOfOpeningSeconds = start + up,
            BeginOfClosingSeconds = start + up + rest,
            CloseSeconds = start + up + rest + down,
            Peak = openingLaw.At(reach),
        };
        foreach (var (from, to, c) in openingLaw.Pieces)
            if (from < reach)
                profile.pieces.Add(new(start + from * opening, start + Math.Min(to, reach) * opening, Moved(c, from, 1 / opening)));
        if (rest > 0) profile.pieces.Add(new(profile.EndOfOpeningSeconds, profile.BeginOfClosingSeconds, [profile.Peak]));
        foreach (var (from, to, c) in closingLaw.Pieces.Reverse())
        {
            if (from >= back) continue;
            var top = Math.Min(to, back);
            profile.pieces.Add(new(profile.CloseSeconds - top * closing, profile.CloseSeconds - from * closing, Moved(c, top, -1 / closing)));
        }

        profile.MainEffectiveSeconds = profile.EffectiveSeconds;
        if (bounce is { } b)
        {
            var at = profile.CloseSeconds + b.Delay;
            profile.pieces.Add(new(at, at + b.Duration, [0, 4 * b.Height / b.Duration, -4 * b.Height / b.Duration / b.Duration]));
        }

        return profile;
    }

    /// <summary>Where the main opening passes a share of its own peak.</summary>
    public double Crossing(double share, bool opening)
    {
        var (low, high) = opening ? (StartSeconds, EndOfOpeningSeconds) : (CloseSeconds, BeginOfClosingSeconds);
        for (var i = 0; i < 200; i++)
        {
            var middle = (low + high) / 2;
            if (At(middle) < share * Peak) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }

    public double At(double t)
    {
        foreach (var piece in pieces)
            if (t >= piece.Start && t < piece.End) return piece.At(t);
        return 0;
    }

    /// <summary>The run at which a law reaches a height.</summary>
    private static double Share(BladeLaw law, double height)
    {
        var (low, high) = (0.0, 1.0);
        for (var i = 0; i < 100; i++)
        {
            var middle = (low + high) / 2;
            if (law.At(middle) < height) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }

    /// <summary>Coefficients of p(origin + scale·u) in u.</summary>
    private static double[] Moved(double[] c, double origin, double scale)
    {
        var moved = new double[c.Length];
        for (var power = 0; power < c.Length; power++)
        {
            double binomial = 1;
            for (var k = 0; k <= power; k++)
            {
                moved[k] += c[power] * binomial * Math.Pow(origin, power - k) * Math.Pow(scale, k);
                binomial = binomial * (power - k) / (k + 1);
            }
        }

        return moved;
    }
}
