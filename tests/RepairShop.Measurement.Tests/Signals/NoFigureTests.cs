using RepairShop.Measurement.Signals;
using RepairShop.Testing.Signals;
using Xunit;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>Recordings that hold no exposure give no figure and say why.</summary>
public class NoFigureTests
{
    private static AnalysisResult Analyse(float[] samples, double rateHz = 48_000) =>
        RecordingAnalysis.Analyse(Recording.Mono(rateHz, samples), Rig.OneSensor);

    private static void Says(Outcome expected, float[] samples)
    {
        var result = Analyse(samples);
        Assert.Equal(expected, result.Outcome);
        Assert.Empty(result.Exposures);
        Assert.Equal(InputCoupling.Auto, result.Coupling.Kind);
    }

    [Fact]
    public void No_samples() => Says(Outcome.NoSamples, []);

    [Fact]
    public void One_sample() => Says(Outcome.TooShort, [0.5f]);

    [Fact]
    public void Two_milliseconds() => Says(Outcome.TooShort, new float[96]);

    [Fact]
    public void Nothing_but_not_a_number() => Says(Outcome.NotFinite, [.. Enumerable.Repeat(float.NaN, 48_000)]);

    [Theory]
    [InlineData(float.NaN)]
    [InlineData(float.PositiveInfinity)]
    [InlineData(float.NegativeInfinity)]
    public void One_sample_that_is_no_number(float bad)
    {
        var truth = ShutterProfile.Of(0.2, 0.001, 0.01, 0.001, BladeLaw.Straight, BladeLaw.Straight);
        var samples = new SignalSynth { Profiles = [truth], NoiseDecibels = 40 }.Samples();
        samples[40_000] = bad;
        Says(Outcome.NotFinite, samples);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.25)]
    public void Silence(double offset) => Says(Outcome.Silent, [.. Enumerable.Repeat((float)offset, 48_000)]);

    [Fact]
    public void An_open_input_with_hardly_any_noise_is_silent() => Says(Outcome.Silent, Sounds.WhiteNoise(1, 0.0002));

    [Theory]
    [InlineData(0.01)]
    [InlineData(0.2)]
    public void Noise_alone_is_no_exposure(double level)
    {
        for (var seed = 0; seed < 10; seed++) Says(Outcome.NoExposure, Sounds.WhiteNoise(seed, level));
    }

    [Theory]
    [InlineData(50)]
    [InlineData(60)]
    [InlineData(49.95)]
    public void Hum_alone(double frequency)
    {
        for (var seed = 0; seed < 10; seed++) Says(Outcome.HumOnly, Sounds.Hum(seed, frequency, 0.2));
    }

    public static TheoryData<string> Kinds => [.. Sounds.All.Keys];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void What_sounds_is_not_a_shutter(string kind)
    {
        for (var seed = 0; seed < 12; seed++)
            foreach (var gain in new[] { 1f, 0.1f })
            {
                var samples = Sounds.All[kind](seed).Select(sample => gain * sample).ToArray();
                var result = Analyse(samples);
                Assert.True(result.Exposures.Count == 0, $"seed {seed}, gain {gain}: {result.Exposures.Count} exposures");
                Assert.True(result.Outcome == Outcome.NotAShutter, $"seed {seed}, gain {gain}: {result.Outcome}");
            }
    }

    [Theory]
    [InlineData(6, 0.05)]
    [InlineData(6, 0.2)]
    [InlineData(6, 0.001)]
    [InlineData(10, 0.05)]
    public void An_exposure_that_hardly_rises_above_the_noise_is_too_little_light(double decibels, double dwell)
    {
        var truth = ShutterProfile.Of(0.5, 0.001, dwell, 0.001, BladeLaw.Straight, BladeLaw.Straight);
        for (var seed = 0; seed < 10; seed++)
            Says(Outcome.TooLittleLight, new SignalSynth { Profiles = [truth], Level = 0.1, NoiseDecibels = decibels, Seed = seed }.Samples());
    }

    [Fact]
    public void Two_exposures_without_quiet_between_them_are_too_close()
    {
        var first = ShutterProfile.Of(0.3, 0.001, 0.02, 0.001, BladeLaw.Straight, BladeLaw.Straight);
        var second = ShutterProfile.Of(first.CloseSeconds + 0.0045, 0.001, 0.02, 0.001, BladeLaw.Straight, BladeLaw.Straight);
        var result = Analyse(new SignalSynth { Profiles = [first, second], NoiseDecibels = 40 }.Samples());
        Assert.Equal(Outcome.TooClose, result.Outcome);
        Assert.NotEmpty(result.Warnings.OfType<TooClose>());
    }

    [Fact]
    public void A_reference_that_is_not_there_is_told()
    {
        var truth = ShutterProfile.Of(0.2, 0.001, 0, 0.001, BladeLaw.Straight, BladeLaw.Straight, 0.8);
        var samples = new SignalSynth { Profiles = [truth], NoiseDecibels = 40 }.Samples();
        foreach (var number in new[] { 1, 3 })
        {
            var result = RecordingAnalysis.Analyse(Recording.Mono(48_000, samples), new Rig { ReferenceExposure = number });
            Assert.Equal(number, Assert.Single(result.Warnings.OfType<ReferenceMissing>()).Exposure);
            Assert.Null(Assert.Single(result.Exposures).EffectiveSeconds);
        }
    }

    [Fact]
    public void A_rig_that_makes_no_sense_is_the_callers_mistake()
    {
        var recording = new Recording(48_000, [new float[10], new float[10]]);
        Assert.Throws<ArgumentException>(() => RecordingAnalysis.Analyse(recording, new Rig { Roles = [ChannelRole.Unused] }));
        Assert.Throws<ArgumentException>(() => RecordingAnalysis.Analyse(recording, new Rig { Roles = [ChannelRole.Light, ChannelRole.Light] }));
        Assert.Throws<ArgumentException>(() => RecordingAnalysis.Analyse(recording, new Rig { ReferenceExposure = 0 }));
        Assert.Throws<ArgumentException>(() => RecordingAnalysis.Analyse(recording, new Rig { FrameWidthMm = double.NaN }));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Recording(0, [new float[1]]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Recording(48_000, []));
        Assert.Throws<ArgumentException>(() => new Recording(48_000, [new float[1], new float[2]]));
    }
}
