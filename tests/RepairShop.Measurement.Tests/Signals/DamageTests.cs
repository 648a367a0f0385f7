using RepairShop.Measurement.Signals;
using RepairShop.Testing.Signals;
using Xunit;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>What an input can do to a recording: each is named, and no figure stands on it.</summary>
public class DamageTests
{
    private static readonly ShutterProfile Slow = ShutterProfile.Of(0.3, 0.001, 0.25, 0.001, BladeLaw.Straight, BladeLaw.Straight);

    private static AnalysisResult Analyse(float[] samples) => RecordingAnalysis.Analyse(Recording.Mono(48_000, samples), Rig.OneSensor);

    [Theory]
    [InlineData(1 / 500.0, null, 1.3)]
    [InlineData(1 / 60.0, null, 1.3)]
    [InlineData(1 / 4.0, null, 2.0)]
    [InlineData(1 / 500.0, 5.0, 1.3)]
    [InlineData(1 / 60.0, 2.0, 1.5)]
    [InlineData(1 / 4.0, 10.0, 2.0)]
    public void A_clipped_exposure_has_no_figures(double seconds, double? corner, double overdrive)
    {
        foreach (var (inverted, ceiling) in new[] { (false, 1.0), (true, 1.0), (false, 0.6) })
        {
            var truth = ShutterProfile.Of(0.2, 0.0006, seconds - 0.0006, 0.0006, BladeLaw.Straight, BladeLaw.Iris);
            var synth = new SignalSynth
            {
                Profiles = [truth],
                DurationSeconds = seconds + 0.5,
                CornerHz = corner,
                NoiseDecibels = 40,
                Level = overdrive * ceiling,
                Ceiling = ceiling,
                Inverted = inverted,
            };
            var result = Analyse(synth.Samples());
            Assert.Equal(Outcome.Clipped, result.Outcome);
            Assert.Empty(result.Exposures);
            Assert.Equal(Outcome.Clipped, Assert.Single(result.Refused).Reason);
            var warning = Assert.Single(result.Warnings.OfType<Clipping>());
            Assert.Equal(inverted ? -ceiling : ceiling, warning.Level, 1e-6);
            Assert.InRange(warning.AtSeconds, 0.2, 0.2 + seconds);
        }
    }

    [Fact]
    public void A_clipped_exposure_does_not_take_the_good_ones_with_it()
    {
        var good = ShutterProfile.Of(0.9, 0.001, 0.03, 0.001, BladeLaw.Straight, BladeLaw.Straight);
        var samples = new SignalSynth { Profiles = [Slow, good], DurationSeconds = 1.3, NoiseDecibels = 40, Level = 0.5 }.Samples();
        for (var n = 0; n < 0.7 * 48_000; n++) samples[n] = Math.Clamp(2.5f * samples[n], -1, 1);
        var result = Analyse(samples);
        Assert.Equal(Outcome.Ok, result.Outcome);
        Assert.Equal(1, Assert.Single(result.Refused).Number);
        Assert.Equal(2, Assert.Single(result.Exposures).Number);
    }

    [Theory]
    [InlineData(441)]
    [InlineData(480)]
    [InlineData(128)]
    public void An_inserted_silent_block_is_named(int length)
    {
        foreach (var corner in new double?[] { null, 3 })
        {
            var samples = Noisy(corner);
            var result = Analyse([.. samples[..20_000], .. new float[length], .. samples[20_000..]]);
            var fault = Assert.Single(result.Warnings.OfType<DroppedBlock>());
            Assert.Equal(BlockFault.Silence, fault.Fault);
            Assert.Equal(20_000 / 48_000.0, fault.AtSeconds, 0.001);
            Assert.Equal(length / 48_000.0, fault.LengthSeconds!.Value, 0.0005);
            Assert.Empty(result.Exposures);
            Assert.Equal(Outcome.DroppedBlock, result.Outcome);
        }
    }

    [Theory]
    [InlineData(441)]
    [InlineData(480)]
    [InlineData(1024)]
    public void A_repeated_block_is_named(int length)
    {
        foreach (var corner in new double?[] { null, 3 })
        {
            var samples = Noisy(corner);
            var result = Analyse([.. samples[..20_000], .. samples[(20_000 - length)..]]);
            var fault = Assert.Single(result.Warnings.OfType<DroppedBlock>());
            Assert.Equal(BlockFault.Repeat, fault.Fault);
            Assert.Equal(20_000 / 48_000.0, fault.AtSeconds, 0.002);
            Assert.Equal(Outcome.DroppedBlock, result.Outcome);
        }
    }

    /// <summary>On an AC input the droop goes on in the missing time; on a DC input nothing is left of a block missing from a steady light.</summary>
    [Theory]
    [InlineData(441, 3)]
    [InlineData(480, 1)]
    [InlineData(480, 2)]
    public void A_lost_block_shows_by_its_jump(int length, double corner)
    {
        var samples = Noisy(corner);
        var result = Analyse([.. samples[..17_000], .. samples[(17_000 + length)..]]);
        var fault = Assert.Single(result.Warnings.OfType<DroppedBlock>());
        Assert.Equal(BlockFault.Jump, fault.Fault);
        Assert.Equal(17_000 / 48_000.0, fault.AtSeconds, 0.001);
        Assert.Equal(Outcome.DroppedBlock, result.Outcome);
    }

    [Fact]
    public void A_block_lost_far_from_any_exposure_is_told_and_costs_nothing()
    {
        var samples = Noisy(null);
        var result = Analyse([.. samples[..4_000], .. new float[480], .. samples[4_000..]]);
        Assert.Single(result.Warnings.OfType<DroppedBlock>());
        Assert.Single(result.Exposures);
    }

    [Theory]
    [InlineData(100, 0.03)]
    [InlineData(120, 0.08)]
    public void Lamp_ripple_is_reported_with_its_depth(double frequency, double depth)
    {
        var samples = new SignalSynth { Profiles = [Slow], NoiseDecibels = 40, Ripple = (frequency, depth) }.Samples();
        var result = Analyse(samples);
        var ripple = Assert.Single(result.Warnings.OfType<LampRipple>());
        Assert.Equal(frequency, ripple.FrequencyHz);
        Assert.Equal(depth, ripple.Depth, 0.15 * depth);
        Assert.Equal(depth > LampRipple.Limit, ripple.IsStrong);
        Assert.Equal(ripple.IsStrong, Assert.Single(result.Exposures).Flags.Contains(ExposureRemark.StrongRipple));
    }

    [Fact]
    public void A_steady_lamp_has_no_ripple()
    {
        Assert.Empty(Analyse(Noisy(null)).Warnings.OfType<LampRipple>());
        Assert.Empty(Analyse(Noisy(5)).Warnings.OfType<LampRipple>());
    }

    [Fact]
    public void Bounces_are_counted_and_measured_and_are_no_exposures()
    {
        foreach (var corner in new double?[] { null, 4 })
        {
            var truth = ShutterProfile.Of(0.2, 0.001, 0.015, 0.001, BladeLaw.Straight, BladeLaw.Straight, bounce: (0.003, 0.3, 0.002));
            var result = Analyse(new SignalSynth { Profiles = [truth], DurationSeconds = 0.6, CornerHz = corner, NoiseDecibels = 40 }.Samples());
            var exposure = Assert.Single(result.Exposures);
            var bounce = Assert.Single(exposure.Bounces);
            Assert.Contains(ExposureRemark.Bounce, exposure.Flags);
            Assert.Equal(0.003, bounce.DelaySeconds, 0.0003);
            Assert.Equal(0.3, bounce.Level, 0.04);
            // A parabola: two thirds of height by duration; above half its height for 1/√2 of the time.
            Assert.Equal(0.3 * 0.002 * 2 / 3, bounce.EffectiveSeconds, 0.00003);
            Assert.Equal(0.002 / Math.Sqrt(2), bounce.DurationSeconds, 0.0002);
            Assert.Equal(truth.TotalSeconds, exposure.TotalSeconds, 0.0001);
        }
    }

    private static float[] Noisy(double? corner) =>
        new SignalSynth { Profiles = [Slow], DurationSeconds = 1, CornerHz = corner, NoiseDecibels = 40, Offset = 0.01, Seed = 5 }.Samples();
}
