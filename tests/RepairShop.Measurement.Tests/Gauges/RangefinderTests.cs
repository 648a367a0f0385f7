using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Gauges;
using Xunit;

namespace RepairShop.Measurement.Tests.Gauges;

public class RangefinderTests
{
    /// <summary>dD = 5·10⁻⁵·D²/(M·B), W. J. Smith, Modern Optical Engineering, ch. 13, eq. 13.18c; one minute of arc beside it. Millimetres.</summary>
    [Theory]
    [InlineData(40, Rangefinder.VernierAcuity, 1000, 1.25)]
    [InlineData(40, Rangefinder.VernierAcuity, 3000, 11.25)]
    [InlineData(40, Rangefinder.VernierAcuity, 10000, 125)]
    [InlineData(50, Rangefinder.VernierAcuity, 1000, 1)]
    [InlineData(50, Rangefinder.VernierAcuity, 10000, 100)]
    [InlineData(40, Rangefinder.OneMinute, 1000, 7.27)]
    [InlineData(40, Rangefinder.OneMinute, 3000, 65.45)]
    [InlineData(50, Rangefinder.OneMinute, 3000, 52.36)]
    public void What_the_eye_can_set_grows_with_the_square_of_the_distance(double effectiveBase, double acuity, double distance, double error)
    {
        Assert.Equal(error, Rangefinder.SettingError(distance, effectiveBase, 1, acuity), 0.005);
        Assert.Equal(error, Rangefinder.SettingError(distance, effectiveBase * 2, 0.5, acuity), 0.005);
    }

    /// <summary>f²·dθ/(N·c) at one minute of arc and c = 0.03 mm.</summary>
    [Theory]
    [InlineData(50, 1.4, 17.3)]
    [InlineData(50, 2, 12.1)]
    [InlineData(90, 2.8, 28.1)]
    [InlineData(135, 4, 44.2)]
    public void A_longer_or_faster_lens_asks_for_a_longer_base(double focalLength, double fNumber, double needed) =>
        Assert.Equal(needed, Rangefinder.BaseNeeded(focalLength, fNumber, acuity: Rangefinder.OneMinute), 0.06);

    /// <summary>
    /// f 50 at f/2: half the depth of focus is 0.06 mm. Infinity shown as 50 m stands 0.0501 mm out; as 30 m 0.0836 mm (f²/(u − f) with u from the film distance).
    /// </summary>
    [Theory]
    [InlineData(50000, 0.0501, Verdict.Within)]
    [InlineData(30000, 0.0836, Verdict.Outside)]
    public void Infinity_shown_too_near_leaves_the_lens_too_far_out(double shown, double error, Verdict verdict)
    {
        var gauge = Rangefinder.FilmError(50, 2, shown, null);
        Assert.Equal(error, gauge.Value, 1e-4);
        Assert.Equal((verdict, 0.06), (gauge.Verdict, Math.Round(gauge.High!.Value, 9)));
    }

    [Fact]
    public void A_target_at_one_metre_read_as_too_far_leaves_the_lens_too_far_in()
    {
        var gauge = Rangefinder.FilmError(50, 2, 1030, 1000);
        Assert.True(gauge.Value < 0);
        // Half of 2Nc(1 + m), m = 2.77/50 at 1 m from the film.
        Assert.InRange(gauge.High!.Value, 0.0632, 0.0634);
        Assert.Equal(Verdict.Outside, gauge.Verdict);
    }

    [Fact]
    public void The_right_distance_has_no_error() => Assert.Equal(0, Rangefinder.FilmError(50, 2, 3000, 3000).Value, 1e-12);

    [Fact]
    public void Nonsense_is_misuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>("baseLength", () => Rangefinder.SettingError(1000, 0));
        Assert.Throws<ArgumentOutOfRangeException>("distance", () => Rangefinder.SettingError(double.NaN, 40));
        Assert.Throws<ArgumentOutOfRangeException>("filmDistance", () => Rangefinder.FilmError(50, 2, 100, null));
    }
}
