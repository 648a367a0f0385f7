using RepairShop.Measurement.Exposure;
using RepairShop.Measurement.Gauges;
using Xunit;

namespace RepairShop.Measurement.Tests.Gauges;

public class MeterCheckTests
{
    /// <summary>
    /// The thermometer of JCGM 100:2008, H.3, table H.6: readings t against corrections b, published line b = −0.1712 + 0.002 18·(t − 20). Here t is the light
    /// and t + b the reading, so the slope is 1.002 18. The data were typed from memory; that they give the published figures confirms them.
    /// </summary>
    [Fact]
    public void The_line_agrees_with_a_published_calibration()
    {
        double[] t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511];
        double[] b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160];
        var check = MeterCheck.Of(t.Zip(b, (light, correction) => new MeterPoint(light, light + correction)));
        Assert.Equal(1.00218, check.Slope!.Value, 5e-6);
        Assert.Equal(-0.1712 + 0.00218 * (t.Average() - 20), check.MeanError, 5e-5);
        Assert.Equal(-0.171, check.WorstError, 1e-9);
        // Furthest from the published line is 23.003: −0.159 − (−0.1712 + 0.00218 · 3.003) = 0.00565.
        Assert.Equal(0.00565, check.Linearity!.Value, 5e-6);
    }

    /// <summary>L = 2^(EV − 3) cd/m² with K = 12.5 and E = 2.5·2^EV lx with C = 250 at ISO 100; K = 14 instead shifts by log2(14/12.5) = 0.16350 stop.</summary>
    [Fact]
    public void Another_constant_shifts_every_reading_alike()
    {
        var points = new[] { 1.0, 32, 512, 4096 }.Select(luminance => new MeterPoint(
            ExposureValue.FromLuminance(luminance), ExposureValue.FromLuminance(luminance, constant: 14)));
        var check = MeterCheck.Of(points);
        Assert.Equal([3, 8, 12, 15], check.Points.Select(point => Math.Round(point.Light, 9)));
        Assert.Equal(-0.16350, check.MeanError, 5e-6);
        Assert.Equal(1, check.Slope!.Value, 1e-12);
        Assert.Equal(0, check.Linearity!.Value, 1e-12);
    }

    [Fact]
    public void A_meter_that_tires_in_bright_light_has_a_flat_line()
    {
        var check = MeterCheck.Of([new(12, 11.8), new(4, 4), new(8, 7.9)]);
        Assert.Equal([4, 8, 12], check.Points.Select(point => point.Light));
        Assert.Equal(0.975, check.Slope!.Value, 1e-12);
        Assert.Equal((-0.1, -0.2), (Math.Round(check.MeanError, 12), Math.Round(check.WorstError, 12)));
    }

    [Fact]
    public void Too_few_points_or_one_light_alone_make_no_line()
    {
        Assert.Null(MeterCheck.Of([new(4, 4), new(8, 8)]).Slope);
        Assert.Null(MeterCheck.Of([new(8, 8), new(8, 8.1), new(8, 7.9)]).Linearity);
    }

    [Fact]
    public void Nothing_and_nonsense_are_misuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>("points", () => MeterCheck.Of([]));
        Assert.Throws<ArgumentOutOfRangeException>(() => MeterCheck.Of([new(double.NaN, 1)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => MeterCheck.Of([new(1, double.PositiveInfinity)]));
    }
}
