using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Signals;
using RepairShop.Testing.Signals;
using Xunit;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>
/// The contact's closing against the blades' opening: X closes at full opening without delay, M about 15 to 20 ms early (common practice); the
/// lead is measured (GOST 19821-83, 6.4.2.3).
/// </summary>
public class FlashTests
{
    private const double RateHz = 48_000;
    private static readonly ShutterProfile Shutter = ShutterProfile.Of(0.3, 0.002, 0.03, 0.002, BladeLaw.Straight, BladeLaw.Straight);

    /// <summary>Fully open is the 90 % crossing: 0.3018 s here.</summary>
    [Theory]
    [InlineData(FlashContactKind.X, 0.0005, Verdict.Within)]
    [InlineData(FlashContactKind.X, -0.0015, Verdict.Outside)]
    [InlineData(FlashContactKind.X, 0.0400, Verdict.Outside)]
    [InlineData(FlashContactKind.M, -0.0170, Verdict.Within)]
    [InlineData(FlashContactKind.M, -0.0100, Verdict.Outside)]
    [InlineData(FlashContactKind.M, -0.0250, Verdict.Outside)]
    [InlineData(FlashContactKind.NotStated, 0.0005, Verdict.NotJudged)]
    public void The_contact_is_judged_by_when_it_closes(FlashContactKind kind, double afterOpen, Verdict verdict)
    {
        foreach (var (inverted, corner) in new (bool, double?)[] { (false, null), (true, null), (false, 2) })
        {
            var flash = Analyse(kind, 0.3018 + afterOpen, 0.012, inverted, corner);
            Assert.Equal(-afterOpen, flash.ContactToFullyOpenSeconds, 0.0001);
            Assert.Equal(0.3322 - 0.3018 - afterOpen, flash.ContactToClosingSeconds, 0.0001);
            Assert.Equal(0.012, flash.HoldSeconds!.Value, 0.0001);
            Assert.Equal(0, flash.Bounces);
            Assert.Equal(verdict, flash.Verdict);
        }
    }

    [Fact]
    public void A_contact_that_springs_back_is_counted()
    {
        var closed = ShutterProfile.Of(0.303, 0.00003, 0.0006, 0.00003, BladeLaw.Straight, BladeLaw.Straight);
        var again = ShutterProfile.Of(0.3041, 0.00003, 0.010, 0.00003, BladeLaw.Straight, BladeLaw.Straight);
        var flash = Analyse(FlashContactKind.X, [closed, again], false, null);
        Assert.Equal(0.303, flash.AtSeconds, 0.00005);
        Assert.Equal(1, flash.Bounces);
    }

    [Fact]
    public void A_contact_that_never_closes_gives_nothing()
    {
        var light = new SignalSynth { Profiles = [Shutter], NoiseDecibels = 40 }.Samples();
        var result = RecordingAnalysis.Analyse(new Recording(RateHz, [light, new float[light.Length]]), Rig2(FlashContactKind.X));
        Assert.Equal(Outcome.Ok, result.Outcome);
        Assert.Empty(result.Flash);
    }

    private static Rig Rig2(FlashContactKind kind) => new() { Roles = [ChannelRole.Light, ChannelRole.FlashContact], Flash = kind };

    private static FlashFigures Analyse(FlashContactKind kind, double at, double hold, bool inverted, double? corner) =>
        Analyse(kind, [ShutterProfile.Of(at, 0.00003, hold - 0.00003, 0.00003, BladeLaw.Straight, BladeLaw.Straight)], inverted, corner);

    private static FlashFigures Analyse(FlashContactKind kind, ShutterProfile[] contact, bool inverted, double? corner)
    {
        var light = new SignalSynth { Profiles = [Shutter], NoiseDecibels = 40 }.Samples();
        var other = new SignalSynth { Profiles = contact, NoiseDecibels = 46, Inverted = inverted, CornerHz = corner, Level = 0.8, Seed = 9 }.Samples();
        return Assert.Single(RecordingAnalysis.Analyse(new Recording(RateHz, [light, other]), Rig2(kind)).Flash);
    }
}
