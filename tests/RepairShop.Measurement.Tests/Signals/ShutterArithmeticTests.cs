using RepairShop.Measurement.Signals;
using RepairShop.Testing.Signals;
using Xunit;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>The arithmetic of leaf shutters and of an RC high-pass, by the analysis and by hand.</summary>
public class ShutterArithmeticTests
{
    private const double RateHz = 192_000;

    /// <summary>
    /// Trapezoid: t_e = dwell + (rise + fall)/2, efficiency t_e/total, 50 % width equal to t_e. From the definitions of effective time and shutter
    /// efficiency (Great Soviet Encyclopedia, "Exposure time"; DIN 19016:1983).
    /// </summary>
    [Theory]
    [InlineData(1, 1, 1, 2.0, 66.67)]
    [InlineData(1, 3, 1, 4.0, 80.00)]
    [InlineData(1.2, 0.8, 1.2, 2.0, 62.50)]
    public void A_trapezoid(double rise, double dwell, double fall, double effective, double efficiency)
    {
        var found = Analyse(ShutterProfile.Of(0.1, rise / 1000, dwell / 1000, fall / 1000, BladeLaw.Straight, BladeLaw.Straight));
        Assert.Equal(effective, found.EffectiveSeconds!.Value * 1000, 0.002);
        Assert.Equal(efficiency, found.Efficiency!.Value * 100, 0.1);
        Assert.Equal(effective, found.Width50Seconds * 1000, 0.002);
        Assert.Equal(rise + dwell + fall, found.TotalSeconds * 1000, 0.01);
        Assert.Equal(0.8 * rise, found.OpeningSeconds * 1000, 0.01);
        Assert.Equal(0.8 * fall, found.ClosingSeconds * 1000, 0.01);
        Assert.Equal(dwell, found.DwellSeconds * 1000, 0.02);
    }

    /// <summary>
    /// Iris with diameter linear in time, wide open: t_e = dwell + (rise + fall)/3 (the same definition, area as the diameter's square), and the
    /// 50 % width is not t_e: each edge passes half at 1/√2 of its run.
    /// </summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void An_iris_wide_open(int seed)
    {
        var found = Analyse(ShutterProfile.Of(0.1, 0.001, 0.001, 0.001, BladeLaw.Iris, BladeLaw.Iris), seed);
        Assert.Equal(1.66667, found.EffectiveSeconds!.Value * 1000, 0.002);
        Assert.Equal(55.56, found.Efficiency!.Value * 100, 0.1);
        Assert.Equal(3, found.TotalSeconds * 1000, 0.01);
        Assert.Equal(1 + 2 * (1 - Math.Sqrt(0.5)), found.Width50Seconds * 1000, 0.002);
    }

    /// <summary>
    /// The iris stopped down to a share q of its diameter is open from q on: t_e = dwell + (rise + fall)(1 − 2q/3) over the same blades. The
    /// table's changes in stops follow from the formula.
    /// </summary>
    [Theory]
    [InlineData(0.70711, 2.05719, 0.3037)]
    [InlineData(0.5, 2.33333, 0.4854)]
    [InlineData(0.25, 2.66667, 0.6781)]
    [InlineData(0.125, 2.83333, 0.7655)]
    public void An_iris_stopped_down(double q, double effective, double stops)
    {
        var found = Analyse(ShutterProfile.Of(0.1, q / 1000, (3 - 2 * q) / 1000, q / 1000, BladeLaw.Iris, BladeLaw.Iris));
        Assert.Equal(effective, found.EffectiveSeconds!.Value * 1000, 0.002);
        Assert.Equal(stops, Math.Log2(found.EffectiveSeconds.Value / (0.005 / 3)), 0.002);
    }

    [Fact]
    public void A_shutter_that_never_rests_open_needs_a_reference()
    {
        var slow = ShutterProfile.Of(0.1, 0.001, 0.03, 0.001, BladeLaw.Straight, BladeLaw.Straight);
        var fast = ShutterProfile.Of(0.5, 0.001, 0, 0.001, BladeLaw.Straight, BladeLaw.Straight, reach: 0.8);
        var recording = Recording.Mono(RateHz, new SignalSynth { SampleRateHz = RateHz, Profiles = [slow, fast], NoiseDecibels = 50 }.Samples());

        var without = RecordingAnalysis.Analyse(recording, Rig.OneSensor).Exposures[1];
        Assert.Null(without.EffectiveSeconds);
        Assert.Null(without.Efficiency);
        Assert.Contains(ExposureRemark.NeverRestsOpen, without.Flags);
        Assert.Equal(fast.Width50Seconds, without.Width50Seconds, 0.00001);

        var result = RecordingAnalysis.Analyse(recording, new Rig { ReferenceExposure = 1 });
        var with = result.Exposures[1];
        Assert.Equal(OpenLevelSource.Reference, with.EffectiveBy);
        Assert.Equal(0.8 * 0.8 * 0.001, with.EffectiveSeconds!.Value, 0.00001);
        Assert.Equal(OpenLevelSource.OwnPlateau, result.Exposures[0].EffectiveBy);

        var carried = RecordingAnalysis.Analyse(recording, new Rig { CarriedOpenLevel = result.Main!.OpenLevel }).Exposures[1];
        Assert.Equal(OpenLevelSource.Carried, carried.EffectiveBy);
        Assert.Equal(with.EffectiveSeconds.Value, carried.EffectiveSeconds!.Value, 1e-9);
    }

    /// <summary>
    /// Droop at the end of a pulse, 1 − e^(−T/τ) (Boylestad, R-C response; τ = 1/(2πf)), as the synthesiser makes it: the truth the analysis is
    /// tested against is tested itself.
    /// </summary>
    [Theory]
    [InlineData(1, 1, 0.63)]
    [InlineData(1, 125, 54.41)]
    [InlineData(2, 8, 9.564)]
    [InlineData(2, 16.667, 18.90)]
    [InlineData(5, 4, 11.81)]
    [InlineData(5, 16.667, 40.76)]
    [InlineData(10, 2, 11.809)]
    [InlineData(10, 125, 99.96)]
    [InlineData(20, 8, 63.41)]
    public void The_droop_table(double cornerHz, double milliseconds, double droopPercent)
    {
        const double edge = 1e-7;
        var pulse = ShutterProfile.Of(0.1, edge, milliseconds / 1000, edge, BladeLaw.Straight, BladeLaw.Straight);
        var droop = 100 * (1 - new HighPass([pulse], 1 / (2 * Math.PI * cornerHz)).At(pulse.BeginOfClosingSeconds));
        Assert.Equal(droopPercent, droop, 0.006);
    }

    /// <summary>Half is reached at 0.693 τ: 11.03 ms at 10 Hz. Beyond it the record says that it stands on the correction.</summary>
    [Theory]
    [InlineData(0.0105, false)]
    [InlineData(0.0120, true)]
    public void A_width_beyond_the_droop_of_half_says_so(double seconds, bool beyond)
    {
        var truth = ShutterProfile.Of(0.2, 0.0005, seconds - 0.0005, 0.0005, BladeLaw.Straight, BladeLaw.Straight);
        var samples = new SignalSynth { Profiles = [truth], CornerHz = 10, NoiseDecibels = 40 }.Samples();
        var found = Assert.Single(RecordingAnalysis.Analyse(Recording.Mono(48_000, samples), Rig.OneSensor).Exposures);
        Assert.Equal(beyond, found.Flags.Contains(ExposureRemark.DroopBeyondHalf));
    }

    private static ExposureFigures Analyse(ShutterProfile truth, int seed = 0)
    {
        var samples = new SignalSynth { SampleRateHz = RateHz, Profiles = [truth], DurationSeconds = 0.3, NoiseDecibels = 60, Seed = seed }.Samples();
        return Assert.Single(RecordingAnalysis.Analyse(Recording.Mono(RateHz, samples), Rig.OneSensor).Exposures);
    }
}
