namespace RepairShop.Measurement.Signals.Straightening;

/// <summary>
/// The input's time constant and offset, from all candidates of a channel together. In each quiet stretch the signal is
/// c + A·e^(−t/τ) (RC high-pass, Boylestad); across an exposure the amplitude changes by −(1/τ)·∫(y − c)dt, because the light is back where it
/// was. Linear in c and the A's, so only τ is searched; the rest falls out of the normal equations.
/// </summary>
internal sealed class DroopFit
{
    private const int Amplitudes = 3;
    private const int Size = Amplitudes + 2;

    /// <summary>τ is looked for between these, in seconds: corners from 0.05 to 40 Hz.</summary>
    private const double LeastTau = 0.004;

    private const double MostTau = 3;
    private const double LimitShare = 1.4;

    /// <summary>By how much a droop must explain the signal better than none, in units of the noise's variance: five standard deviations.</summary>
    private const double Significant = 25;

    private readonly IReadOnlyList<QuietWindow> windows;
    private readonly double rateHz;
    private double linkVariance;

    public DroopFit(IReadOnlyList<QuietWindow> windows)
    {
        this.windows = windows;
        rateHz = windows[0].Blocks.RateHz;
    }

    /// <summary>1/τ in 1/s; 0 for a DC input.</summary>
    public double DecayPerSecond { get; private set; }

    /// <summary>Whether the decay is as fast as is looked for: what decays like that is a sound, no input.</summary>
    public bool IsAtLimit => DecayPerSecond > 1 / (LimitShare * LeastTau);

    /// <summary>One standard uncertainty of it.</summary>
    public double DecayUncertainty { get; private set; }

    /// <summary>The offset, with light upwards.</summary>
    public double Offset { get; private set; }

    /// <summary>Standard deviation of what the model leaves of a block's mean.</summary>
    public double BlockNoise { get; private set; }

    /// <summary>Amplitudes of each window: at the beginning of its quiet part, at the plateau's, and after closing.</summary>
    public double[][] Amplitude { get; private set; } = [];

    public void Run(InputCoupling coupling)
    {
        linkVariance = 0;
        var none = Solve(0, out var count);
        linkVariance = Math.Max(none, 1e-300) / Math.Max(1, count);
        none = Solve(0, out count);
        if (coupling == InputCoupling.Dc)
        {
            Keep(0, none, count);
            return;
        }

        var best = Search();
        var least = Solve(best, out count);
        linkVariance = Math.Max(least, 1e-300) / Math.Max(1, count);
        best = Search();
        least = Solve(best, out count);
        var noise = Math.Max(least, 1e-300) / Math.Max(1, count);
        none = Solve(0, out _);
        Keep(coupling == InputCoupling.Auto && none - least < Significant * noise ? 0 : best, least, count);
    }

    /// <summary>The model's value at a place, offset included, by segment: 0 before, 1 open, 2 after.</summary>
    public double Model(int window, int segment, double block)
    {
        var w = windows[window];
        var start = segment switch { 0 => w.Candidate.QuietFrom, 1 => w.PlateauFrom, _ => w.Candidate.To };
        return Offset + Amplitude[window][segment] * Math.Exp(-DecayPerSecond / rateHz * (block - start));
    }

    private void Keep(double decay, double squares, double count)
    {
        DecayPerSecond = decay;
        BlockNoise = Math.Sqrt(Math.Max(0, squares) / Math.Max(1, count));
        Solve(decay, out _, keep: true);
        if (decay == 0) return;
        var step = 0.02 * decay;
        var middle = Solve(decay, out _);
        var curvature = (Solve(decay + step, out _) + Solve(decay - step, out _) - 2 * middle) / (step * step);
        DecayUncertainty = curvature > 0 ? Math.Min(decay, BlockNoise * Math.Sqrt(2 / curvature)) : decay;
    }

    /// <summary>A grid in log τ, then a golden section around its least.</summary>
    private double Search()
    {
        const int points = 20;
        double Decay(double x) => Math.Exp(-(Math.Log(LeastTau) + x * Math.Log(MostTau / LeastTau) / (points - 1)));
        double best = 0, least = double.PositiveInfinity;
        for (var i = 0; i < points; i++)
        {
            var squares = Solve(Decay(i), out _);
            if (squares < least) (best, least) = (i, squares);
        }

        var golden = (Math.Sqrt(5) - 1) / 2;
        var (low, high) = (Math.Max(0, best - 1), Math.Min(points - 1, best + 1));
        var (a, b) = (high - golden * (high - low), low + golden * (high - low));
        var (atA, atB) = (Solve(Decay(a), out _), Solve(Decay(b), out _));
        for (var i = 0; i < 18; i++)
        {
            if (atA < atB)
            {
                (high, b, atB) = (b, a, atA);
                a = high - golden * (high - low);
                atA = Solve(Decay(a), out _);
            }
            else
            {
                (low, a, atA) = (a, b, atB);
                b = low + golden * (high - low);
                atB = Solve(Decay(b), out _);
            }
        }

        return Decay((low + high) / 2);
    }

    /// <summary>The sum of squares left at one 1/τ, weighted so that its unit is one block's variance.</summary>
    private double Solve(double decay, out double count, bool keep = false)
    {
        var perBlock = decay / rateHz;
        double cc = 0, cz = 0, zz = 0;
        count = -1 - (decay > 0 ? 1 : 0);
        var systems = keep ? new double[windows.Count][,] : null;
        for (var i = 0; i < windows.Count; i++)
        {
            var system = Normal(windows[i], perBlock, ref count);
            Eliminate(system);
            cc += system[Amplitudes, Amplitudes];
            cz += system[Amplitudes, Amplitudes + 1];
            zz += system[Amplitudes + 1, Amplitudes + 1];
            if (systems is not null) systems[i] = system;
        }

        var offset = cc > 0 ? cz / cc : 0;
        if (systems is null) return zz - cz * offset;
        Offset = offset;
        Amplitude = [.. systems.Select(system => BackSubstitute(system, offset))];
        return zz - cz * offset;
    }

    private double[,] Normal(QuietWindow window, double perBlock, ref double count)
    {
        var n = new double[Size, Size];
        Span<double> row = stackalloc double[Size];
        Add(window.Before, 0, window.Candidate.QuietFrom, perBlock, n, ref count);
        Add(window.Open, 1, window.PlateauFrom, perBlock, n, ref count);
        Add(window.After, 2, window.Candidate.To, perBlock, n, ref count);

        // What is left from before the window is small beside anything else: holds A and c apart where they look alike.
        var guess = window.Candidate.Opening.Height;
        var scale = linkVariance > 0 ? linkVariance : guess * guess * 1e-4;
        n[0, 0] += scale / (guess * guess);
        if (!window.HasPlateau) n[1, 1] += 1;

        var length = window.Candidate.To - window.Candidate.From;
        row.Clear();
        row[0] = -Math.Exp(-perBlock * (window.Candidate.From - window.Candidate.QuietFrom));
        row[2] = 1;
        row[3] = -perBlock * length;
        row[4] = -perBlock * window.Sum;
        var variance = scale * (perBlock * perBlock * length + 0.01);
        Accumulate(n, row, scale / variance);
        count -= Amplitudes - 1;
        return n;
    }

    private static void Add(List<Group> groups, int amplitude, double start, double perBlock, double[,] n, ref double count)
    {
        double ww = 0, we = 0, wee = 0, wz = 0, wez = 0, wzz = 0;
        foreach (var group in groups)
        {
            var half = perBlock * group.Weight / 2;
            // The mean of an exponential over a group is its value in the middle times sinh(half)/half.
            var e = Math.Exp(-perBlock * (group.Centre - start)) * (half < 0.01 ? 1 + half * half / 6 : Math.Sinh(half) / half);
            var w = group.Weight;
            count++;
            ww += w;
            we += w * e;
            wee += w * e * e;
            wz += w * group.Mean;
            wez += w * e * group.Mean;
            wzz += w * group.Mean * group.Mean;
        }

        n[amplitude, amplitude] += wee;
        n[amplitude, 3] += we;
        n[amplitude, 4] += wez;
        n[3, 3] += ww;
        n[3, 4] += wz;
        n[4, 4] += wzz;
    }

    private static void Accumulate(double[,] n, ReadOnlySpan<double> row, double weight)
    {
        for (var i = 0; i < Size; i++)
            for (var j = i; j < Size; j++)
                n[i, j] += weight * row[i] * row[j];
    }

    /// <summary>Gauss elimination of the amplitudes in the upper triangle of a symmetric matrix.</summary>
    private static void Eliminate(double[,] n)
    {
        for (var p = 0; p < Amplitudes; p++)
            for (var i = p + 1; i < Size; i++)
            {
                if (n[p, p] <= 0) continue;
                var factor = n[p, i] / n[p, p];
                for (var j = i; j < Size; j++) n[i, j] -= factor * n[p, j];
            }
    }

    private static double[] BackSubstitute(double[,] n, double offset)
    {
        var a = new double[Amplitudes];
        for (var p = Amplitudes - 1; p >= 0; p--)
        {
            var right = n[p, 4] - n[p, 3] * offset;
            for (var j = p + 1; j < Amplitudes; j++) right -= n[p, j] * a[j];
            a[p] = n[p, p] > 0 ? right / n[p, p] : 0;
        }

        return a;
    }
}
