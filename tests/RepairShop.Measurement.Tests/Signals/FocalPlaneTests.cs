using RepairShop.Measurement.Signals;
using RepairShop.Testing.Signals;
using Xunit;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>Curtains seen by two or three sensors. A point's exposure is the slit's width over the curtain's speed (classic handbooks).</summary>
public class FocalPlaneTests
{
    private const double RateHz = 96_000;

    /// <summary>Sensors 32 mm apart, crossed in 12 ms: 2.66667 mm/ms; slits of 2.604, 5.208, 10.417 and 20.833 mm (from the formula).</summary>
    [Theory]
    [InlineData(1024, 2.604)]
    [InlineData(512, 5.208)]
    [InlineData(256, 10.417)]
    [InlineData(128, 20.833)]
    public void Even_curtains(double speed, double slitMm)
    {
        var release = Analyse(first: 12, second: 12, atStart: 1000 / speed, sensors: 2);
        Assert.Equal(0.012, release.FirstCurtain!.TravelSeconds, 0.00002);
        Assert.Equal(2666.67, release.FirstCurtain.SpeedMmPerSecond, 5.0);
        Assert.Equal(32, release.FirstCurtain.DistanceMm, 1e-9);
        Assert.Equal(0.0135, release.FirstCurtain.WholeFrameSeconds, 0.00003);
        Assert.Equal(0.012, release.SecondCurtain!.TravelSeconds, 0.00002);
        Assert.All(release.Points, point => Assert.Equal(slitMm, point.SlitWidthMm!.Value, 0.03));
        Assert.Equal(1, release.NonUniformity!.Value, 0.01);
        Assert.False(release.IsCapping);
        Assert.Equal(0.012 + 1 / speed, release.WholePictureSeconds, 0.00003);
    }

    /// <summary>
    /// A closing curtain that takes 11.5 ms where the opening one takes 12: 0.9766 ms at the start becomes 0.4766 ms 32 mm on, a ratio of 2.05,
    /// 1.035 EV (largest over smallest, GOST 19821-83, 6.4.2.2).
    /// </summary>
    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void A_faster_closing_curtain(int sensors)
    {
        var release = Analyse(first: 12, second: 11.5, atStart: 0.9766, sensors);
        Assert.Equal(sensors, release.Points.Count);
        Assert.Equal(0.0009766, release.Points[0].Seconds, 0.00001);
        Assert.Equal(0.0004766, release.Points[^1].Seconds, 0.00001);
        Assert.Equal(2.05, release.NonUniformity!.Value, 0.05);
        Assert.Equal(1.035, release.NonUniformityStops!.Value, 0.035);
        Assert.Equal(0.0115, release.SecondCurtain!.TravelSeconds, 0.00002);
    }

    /// <summary>By extension: 0.35 ms at the last sensor falls to nothing before the frame's edge when each millimetre costs 0.2 ms.</summary>
    [Theory]
    [InlineData(6.75, true)]
    [InlineData(9.15, false)]
    public void Capping_at_the_edge_of_the_frame_is_seen_by_extension(double atStart, bool capping) =>
        Assert.Equal(capping, Analyse(first: 12, second: 5.6, atStart, sensors: 2).IsCapping);

    [Fact]
    public void No_light_at_the_last_sensor_is_capping()
    {
        var good = Profiles(0.3, 12, 12, 4, 3);
        var capped = Profiles(0.8, 12, 12, 1, 3);
        var channels = Enumerable.Range(0, 3).Select(i => Samples([.. i == 2 ? new[] { good[i] } : new[] { good[i], capped[i] }], i)).ToArray();
        var result = RecordingAnalysis.Analyse(new Recording(RateHz, channels), Rig3());
        Assert.Equal(2, result.FocalPlane.Count);
        Assert.False(result.FocalPlane[0].IsCapping);
        Assert.True(result.FocalPlane[1].IsCapping);
        Assert.Null(result.FocalPlane[1].NonUniformity);
        Assert.Equal(0, result.FocalPlane[1].Points[^1].Seconds);
    }

    /// <summary>A 10-inch plate, a slit of a tenth of an inch, a travel of one second: each point 1/100 s (Amateur Photographer dictionary, 1901).</summary>
    [Fact]
    public void The_dictionarys_worked_example()
    {
        var point = 0.1 / (10 / 1.0);
        Assert.Equal(0.01, point, 1e-15);
        var truth = ShutterProfile.Of(0.3, 0.0005, point - 0.0005, 0.0005, BladeLaw.Straight, BladeLaw.Straight);
        var found = RecordingAnalysis.Analyse(Recording.Mono(RateHz, Samples([truth], 1)), Rig.OneSensor);
        Assert.Equal(0.01, Assert.Single(found.Exposures).Width50Seconds, 0.00001);
    }

    [Fact]
    public void The_sensors_stand_at_45_percent_of_the_frame_unless_told()
    {
        // GOST 19821-83, p. 23, for 24, 36 and 56 mm.
        foreach (var (frame, position) in new[] { (24, 10.8), (36, 16.2), (56, 25.2) })
        {
            Assert.Equal(position, new Rig { FrameWidthMm = frame }.PositionMm(ChannelRole.LightLastEdge), 1e-12);
            Assert.Equal(-position, new Rig { FrameWidthMm = frame }.PositionMm(ChannelRole.LightFirstEdge), 1e-12);
        }
    }

    /// <summary>Curtain times in ms over 32 mm, exposure at the first sensor in ms.</summary>
    private static FocalPlaneFigures Analyse(double first, double second, double atStart, int sensors)
    {
        var profiles = Profiles(0.3, first, second, atStart, sensors);
        var channels = profiles.Select((profile, i) => Samples([profile], i)).ToArray();
        var rig = Rig3() with { Roles = sensors == 3 ? Rig3().Roles : [ChannelRole.LightFirstEdge, ChannelRole.LightLastEdge] };
        return Assert.Single(RecordingAnalysis.Analyse(new Recording(RateHz, channels), rig).FocalPlane);
    }

    private static Rig Rig3() => new()
    {
        Roles = [ChannelRole.LightFirstEdge, ChannelRole.Light, ChannelRole.LightLastEdge],
        FirstEdgePositionMm = -16,
        LastEdgePositionMm = 16,
    };

    private static ShutterProfile[] Profiles(double start, double first, double second, double atStart, int sensors)
    {
        // A slit's edge passes a small sensor within a tenth of a millisecond.
        const double edge = 0.0001;
        return [.. Enumerable.Range(0, sensors).Select(i =>
        {
            var share = i / (sensors - 1.0);
            var seconds = (atStart + share * (second - first)) / 1000;
            return ShutterProfile.Of(start + share * first / 1000, edge, seconds - edge, edge, BladeLaw.Straight, BladeLaw.Straight);
        })];
    }

    private static float[] Samples(ShutterProfile[] profiles, int seed) =>
        new SignalSynth { SampleRateHz = RateHz, Profiles = profiles, DurationSeconds = 1.2, NoiseDecibels = 45, Seed = seed }.Samples();
}
