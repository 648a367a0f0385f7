using RepairShop.Measurement.Signals;
using RepairShop.Testing.Signals;
using Xunit;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>Whatever the speed, the level and the coupling: one exposure in the recording is one exposure found.</summary>
public class FindingTests
{
    public static TheoryData<double, double> SpeedsAndLevels
    {
        get
        {
            var data = new TheoryData<double, double>();
            foreach (var speed in new[] { 1, 2, 4, 8, 15, 30, 60, 125, 250, 500, 1000 })
                foreach (var level in new[] { 0.02, 0.1, 0.5, 0.96 })
                    data.Add(1.0 / speed, level);
            return data;
        }
    }

    [Theory]
    [MemberData(nameof(SpeedsAndLevels))]
    public void A_single_exposure_is_found(double seconds, double level)
    {
        foreach (var corner in new double?[] { null, 0.5, 3, 10 })
            foreach (var law in BladeLaw.All)
            {
                var edge = Math.Min(0.001, 0.45 * seconds);
                var truth = ShutterProfile.Of(0.1, edge, seconds - edge, edge, law, law);
                var synth = new SignalSynth
                {
                    Profiles = [truth],
                    DurationSeconds = truth.CloseSeconds + 0.1,
                    Level = level,
                    CornerHz = corner,
                    NoiseDecibels = 40,
                    Inverted = corner > 1,
                };
                var result = RecordingAnalysis.Analyse(Recording.Mono(48_000, synth.Samples()), Rig.OneSensor);
                Assert.Equal(Outcome.Ok, result.Outcome);
                var found = Assert.Single(result.Exposures);
                Assert.InRange(found.Width50Seconds / truth.Width50Seconds, 0.97, 1.03);
                Assert.Equal(!(corner > 1), result.Main!.LightDrivesUp);
                if (seconds >= 1 / 60.0) Assert.Equal(corner is null ? InputCoupling.Dc : InputCoupling.Ac, result.Coupling.Kind);
            }
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(2)]
    [InlineData(10)]
    public void The_time_constant_is_found_with_an_honest_uncertainty(double corner)
    {
        var (tau, off) = (1 / (2 * Math.PI * corner), new List<double>());
        for (var seed = 0; seed < 30; seed++)
        {
            var truth = ShutterProfile.Of(0.2, 0.001, 0.03, 0.001, BladeLaw.Straight, BladeLaw.Iris);
            var synth = new SignalSynth { Profiles = [truth], DurationSeconds = 1, CornerHz = corner, NoiseDecibels = 40, Seed = seed };
            var found = RecordingAnalysis.Analyse(Recording.Mono(48_000, synth.Samples()), Rig.OneSensor).Coupling;
            Assert.Equal(InputCoupling.Ac, found.Kind);
            Assert.InRange(found.TimeConstantSeconds!.Value, 0.95 * tau, 1.05 * tau);
            off.Add((found.TimeConstantSeconds.Value - tau) / found.StandardUncertaintySeconds!.Value);
        }

        // A standard uncertainty that were too small by two, or too large by five, would show.
        Assert.InRange(Math.Sqrt(off.Average(x => x * x)), 0.2, 2);
    }

    [Fact]
    public void A_stated_coupling_is_taken_at_its_word()
    {
        var truth = ShutterProfile.Of(0.2, 0.001, 0.1, 0.001, BladeLaw.Straight, BladeLaw.Straight);
        var samples = new SignalSynth { Profiles = [truth], CornerHz = 2, NoiseDecibels = 40 }.Samples();
        Assert.Equal(InputCoupling.Dc, RecordingAnalysis.Analyse(Recording.Mono(48_000, samples), new Rig { Coupling = InputCoupling.Dc }).Coupling.Kind);
        var ac = RecordingAnalysis.Analyse(Recording.Mono(48_000, samples), new Rig { Coupling = InputCoupling.Ac });
        Assert.Equal(truth.Width50Seconds, Assert.Single(ac.Exposures).Width50Seconds, 0.003 * truth.Width50Seconds);
    }

    /// <summary>The width's own uncertainty has to cover its errors: neither half nor twice too small.</summary>
    [Fact]
    public void The_width_states_an_uncertainty_that_fits_its_errors()
    {
        var off = new List<double>();
        for (var seed = 0; seed < 120; seed++)
        {
            var truth = ShutterProfile.Of(0.1 + seed * 1.7e-6, 0.0008, 0.004, 0.0009, BladeLaw.Straight, BladeLaw.Iris);
            var samples = new SignalSynth { Profiles = [truth], DurationSeconds = 0.3, NoiseDecibels = 34, Seed = seed }.Samples();
            var found = Assert.Single(RecordingAnalysis.Analyse(Recording.Mono(48_000, samples), Rig.OneSensor).Exposures);
            off.Add((found.Width50Seconds - truth.Width50Seconds) / found.Width50StandardUncertaintySeconds);
        }

        Assert.InRange(Math.Sqrt(off.Average(x => x * x)), 0.6, 1.6);
    }
}
