using RepairShop.Measurement.Checks;
using RepairShop.Measurement.Gauges;
using Xunit;

namespace RepairShop.Measurement.Tests.Gauges;

public class FocusTests
{
    /// <summary>
    /// Worked examples of the thin lens: f 50, extension 10 focuses 300 mm; f 50 at 450 mm needs 6.25 mm, 1:8; with 25 mm more it focuses 130 mm at 0.625
    /// (public forum example, fredmiranda.com). The rest is f²/(u − f), D. Jacobson, "Lens Tutorial".
    /// </summary>
    [Theory]
    [InlineData(50, 300, 10)]
    [InlineData(50, 450, 6.25)]
    [InlineData(50, 130, 31.25)]
    [InlineData(50, 3000, 0.84746)]
    [InlineData(50, 1000, 2.63158)]
    [InlineData(50, 700, 3.84615)]
    [InlineData(75, 1000, 6.08108)]
    [InlineData(80, 1000, 6.95652)]
    [InlineData(135, 1500, 13.35165)]
    public void A_lens_moves_out_by_f_squared_over_u_less_f(double focalLength, double distance, double extension)
    {
        Assert.Equal(extension, Focus.Extension(focalLength, distance), 5e-6);
        Assert.Equal(distance, Focus.PlaneOf(focalLength, Focus.Extension(focalLength, distance))!.Value, 1e-9);
        Assert.Equal(extension / focalLength, Focus.Magnification(focalLength, distance), 5e-7);
    }

    /// <summary>2Nc with c = 0.03 mm.</summary>
    [Theory]
    [InlineData(1.4, 0.084)]
    [InlineData(2, 0.12)]
    [InlineData(2.8, 0.168)]
    [InlineData(5.6, 0.336)]
    public void Depth_of_focus_is_2Nc_far_away_and_grows_with_magnification(double fNumber, double depth)
    {
        Assert.Equal(depth, Focus.Depth(fNumber, 0.03), 1e-12);
        Assert.Equal(depth * 1.125, Focus.Depth(fNumber, 0.03, 0.125), 1e-12);
    }

    /// <summary>f²/(Nc) + f, in metres to the millimetre.</summary>
    [Theory]
    [InlineData(50, 8, 0.03, 10467)]
    [InlineData(35, 8, 0.03, 5139)]
    [InlineData(50, 8, 0.025, 12550)]
    public void Hyperfocal_distances_of_tables(double focalLength, double fNumber, double circle, double distance) =>
        Assert.Equal(distance, Focus.Hyperfocal(focalLength, fNumber, circle), 0.5);

    [Theory]
    [InlineData(50, 1000)]
    [InlineData(50, 200)]
    [InlineData(135, 1500)]
    public void A_distance_from_the_film_is_object_and_image_distance_together(double focalLength, double filmDistance)
    {
        var u = Focus.ObjectDistance(focalLength, filmDistance);
        Assert.Equal(filmDistance, u + focalLength + Focus.Extension(focalLength, u), 1e-9);
    }

    [Fact]
    public void Impossible_distances_are_misuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>("objectDistance", () => Focus.Extension(50, 50));
        Assert.Throws<ArgumentOutOfRangeException>("filmDistance", () => Focus.ObjectDistance(50, 199));
        Assert.Throws<ArgumentOutOfRangeException>(() => Focus.Extension(double.NaN, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => Focus.Depth(2, 0.03, -0.1));
    }

    public class ARegister
    {
        /// <summary>Body long by d: the infinity stop focuses f + f²/d; f 50, 0.02 long is 125.05 m, 0.05 long 50.05 m (from 1/u + 1/v = 1/f).</summary>
        [Theory]
        [InlineData(0.02, 125050)]
        [InlineData(0.05, 50050)]
        public void Too_long_focuses_short_of_infinity(double error, double plane) =>
            Assert.Equal(plane, new Register(45.46 + error, 45.46, 50, 2).FocusesAtInfinityStop!.Value, 0.01);

        [Theory]
        [InlineData(0)]
        [InlineData(-0.02)]
        public void Right_or_short_reaches_infinity_and_past_it(double error) =>
            Assert.Null(new Register(45.46 + error, 45.46, 50, 2).FocusesAtInfinityStop);

        /// <summary>Half of 2Nc: at f/2 and c = 0.03 mm it is 0.06 mm; the spot of a far point is d/N.</summary>
        [Theory]
        [InlineData(0.06, Verdict.Within)]
        [InlineData(-0.06, Verdict.Within)]
        [InlineData(0.0601, Verdict.Outside)]
        [InlineData(-0.0601, Verdict.Outside)]
        public void Is_held_against_half_the_depth_of_focus(double error, Verdict verdict)
        {
            var register = new Register(45.46 + error, 45.46, 50, 2);
            Assert.Equal(verdict, register.Gauge.Verdict);
            Assert.Equal(Math.Abs(error) / 2, register.BlurAtInfinity, 1e-12);
        }

        [Fact]
        public void Names_the_shims_to_take_out_or_add()
        {
            var tooLong = new Register(28.85, 28.80, 50, 2, shims: 0.12);
            Assert.Equal((-0.05, 0.07), (Math.Round(tooLong.ShimChange, 9), Math.Round(tooLong.ShimsAfter!.Value, 9)));
            Assert.False(tooLong.IsBeyondShims);
            Assert.True(new Register(28.95, 28.80, 50, 2, shims: 0.12).IsBeyondShims);
            Assert.Equal(0.03, new Register(28.77, 28.80, 50, 2).ShimChange, 1e-12);
            Assert.Null(new Register(28.77, 28.80, 50, 2).ShimsAfter);
        }

        /// <summary>f 50 set to 1 m (extension 2.63158) with 0.05 mm too much: 50 + 2500/2.68158 = 982.29 mm.</summary>
        [Fact]
        public void Says_where_a_set_distance_falls() =>
            Assert.Equal(982.29, new Register(45.51, 45.46, 50, 2).FocusesAt(1000)!.Value, 0.005);
    }
}
