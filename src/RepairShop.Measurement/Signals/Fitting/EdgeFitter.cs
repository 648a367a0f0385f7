namespace RepairShop.Measurement.Signals.Fitting;

/// <summary>Fits one rising edge of a long exposure with the levels beside it; a closing edge is given backwards.</summary>
/// <param name="Signal">Light, time running so that the edge rises.</param>
/// <param name="Quiet">The same, smoothed.</param>
/// <param name="Noise">Standard deviation of a sample's noise.</param>
/// <param name="RateHz">Samples a second.</param>
internal sealed record EdgeFitter(double[] Signal, double[] Quiet, double Noise, double RateHz)
{
    private const double MarginSeconds = 0.005;
    private const double PlateauSeconds = 0.010;
    private const double SideSeconds = 0.0015;

    /// <summary>An edge that was fitted, in samples of the signal given.</summary>
    /// <param name="Model">Its model; the closing half of it means nothing.</param>
    /// <param name="Variance">Variance of its 50 % crossing.</param>
    /// <param name="Left">Root mean square of what the fit leaves of block means.</param>
    public sealed record Result(PulseModel Model, double Variance, double Left);

    /// <summary>The same signal read backwards.</summary>
    public EdgeFitter Reversed()
    {
        var (signal, quiet) = ((double[])Signal.Clone(), (double[])Quiet.Clone());
        Array.Reverse(signal);
        Array.Reverse(quiet);
        return this with { Signal = signal, Quiet = quiet };
    }

    /// <summary>Fits the edge.</summary>
    /// <param name="about">Where it is, in samples: from and to.</param>
    /// <param name="plateau">How long the light stays after it, in samples.</param>
    /// <param name="bounces">Stretches to leave out.</param>
    /// <returns>Null where nothing rises there.</returns>
    public Result? Fit((int From, int To) about, int plateau, IReadOnlyList<BounceFinder.Span> bounces)
    {
        var side = In(SideSeconds);
        var before = Smooth.MeanOf(Signal, about.From - side, about.From);
        var after = Smooth.MeanOf(Signal, about.To, about.To + Math.Min(side, Math.Max(2, plateau / 2)));
        var height = after - before;
        if (!(height > 3 * Noise / Math.Sqrt(side))) return null;
        var half = Half(about, before + height / 2);
        var low = Smooth.FallsBelow(Quiet, (int)half, -1, before + 0.15 * height);
        var high = Smooth.RisesAbove(Quiet, (int)Math.Ceiling(half), 1, before + 0.85 * height);
        var ramp = Math.Max(2, (high - low) / 0.7);
        var start = Math.Max(0, (int)(half - ramp - In(MarginSeconds)));
        var end = Math.Min(Signal.Length, (int)(half + ramp + Math.Min(In(PlateauSeconds), Math.Max(4, 0.8 * plateau))));
        if (end - start < 12) return null;
        const double never = 1e12;
        var guess = FitTools.Guess(before, height, half - ramp / 2 - start, half + ramp / 2 - start, never, 2 * never);
        var fit = PulseFit.OpeningOnly(Signal[start..end], FitTools.Skip(bounces, start, end), guess, Noise);
        var spread = FitTools.Uncertainty(fit, model => model.OpeningAt(0.5));
        var shifted = FitTools.Shifted(fit.Model, start);
        return new(shifted, spread * spread, FitTools.BlockRms(Signal, shifted, start, end, bounces, RateHz));
    }

    /// <summary>From the middle of the change to where it passes half, whichever side that lies on.</summary>
    private double Half((int From, int To) about, double middle)
    {
        var centre = Math.Clamp((about.From + about.To) / 2, 0, Signal.Length - 1);
        return Quiet[centre] > middle ? Smooth.FallsBelow(Quiet, centre, -1, middle) : Smooth.RisesAbove(Quiet, centre, 1, middle);
    }

    private int In(double seconds) => Math.Max(1, (int)(seconds * RateHz));
}
