using RepairShop.Measurement.Exposure;
using Xunit;

namespace RepairShop.Measurement.Tests.Exposure;

public class ExposureValueTests
{
    private static readonly double[] Apertures = [1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22];

    /// <summary>The whole-stop grid of Ev = Av + Tv (APEX, ASA PH2.5-1960): true f-numbers and true times give whole values.</summary>
    [Theory]
    [InlineData(1, 1)]
    [InlineData(1.0 / 8, 4)]
    [InlineData(1.0 / 32, 6)]
    [InlineData(1.0 / 64, 7)]
    [InlineData(1.0 / 128, 8)]
    [InlineData(1.0 / 512, 10)]
    [InlineData(1.0 / 1024, 11)]
    public void Whole_stops_make_whole_values(double seconds, int valueAtFirstAperture)
    {
        for (var i = 0; i < Apertures.Length; i++)
            Assert.Equal(valueAtFirstAperture + i, ExposureValue.Ev(FNumber.TrueValue(Apertures[i]), seconds), 1e-12);
    }

    /// <summary>Marks read literally, log2(N²/t).</summary>
    [Theory]
    [InlineData(8, 125, 12.96578)]
    [InlineData(16, 125, 14.96578)]
    [InlineData(5.6, 60, 10.87774)]
    [InlineData(11, 250, 14.88465)]
    [InlineData(2.8, 500, 11.93664)]
    [InlineData(8, 250, 13.96578)]
    [InlineData(16, 100, 14.64386)]
    public void Literal_marks_miss_whole_values(double fNumber, double under, double value) =>
        Assert.Equal(value, ExposureValue.Ev(fNumber, 1 / under), 5e-6);

    /// <summary>Doctests of the library colour-hdri (repository colour-science/colour-hdri).</summary>
    [Fact]
    public void Agrees_with_a_published_library()
    {
        Assert.Equal(8.0, ExposureValue.Luminance(8, 1, 100), 1e-12);
        Assert.Equal(160.0, ExposureValue.Illuminance(8, 1, 100, 250), 1e-12);
        Assert.Equal(0, ExposureValue.FromLuminance(0.125), 1e-12);
        Assert.Equal(0, ExposureValue.FromIlluminance(2.5), 1e-12);
        Assert.Equal(11.9657842847, ExposureValue.Ev100(8, 1.0 / 250, 400), 5e-11);
    }

    /// <summary>L = 2^(EV − 3) cd/m² and E = 2.5·2^EV lx at ISO 100 with K = 12.5 and C = 250.</summary>
    [Theory]
    [InlineData(-4, 0.0078125, 0.15625)]
    [InlineData(3, 1, 20)]
    [InlineData(10, 128, 2560)]
    [InlineData(15, 4096, 81920)]
    [InlineData(17, 16384, 327680)]
    public void Luminance_and_illuminance_double_with_each_value(int value, double luminance, double illuminance)
    {
        Assert.Equal(value, ExposureValue.FromLuminance(luminance), 1e-12);
        Assert.Equal(value, ExposureValue.FromIlluminance(illuminance), 1e-12);
    }

    /// <summary>Tv of marks before the binary series, −log2 t.</summary>
    [Theory]
    [InlineData(5, 2.32193)]
    [InlineData(25, 4.64386)]
    [InlineData(100, 6.64386)]
    [InlineData(250, 7.96578)]
    [InlineData(300, 8.22882)]
    [InlineData(500, 8.96578)]
    public void Time_values_of_old_marks(double under, double value) => Assert.Equal(value, ExposureValue.Tv(1 / under), 5e-6);

    [Theory]
    [InlineData(1.4, 1.41421)]
    [InlineData(2.8, 2.82843)]
    [InlineData(5.6, 5.65685)]
    [InlineData(11, 11.31371)]
    [InlineData(22, 22.62742)]
    [InlineData(32, 32)]
    [InlineData(45, 45.25483)]
    [InlineData(3.5, 3.5)]
    [InlineData(4.5, 4.5)]
    [InlineData(6.3, 6.3)]
    public void A_whole_stop_mark_stands_for_a_power_of_root_two_and_any_other_for_itself(double mark, double value) =>
        Assert.Equal(value, FNumber.TrueValue(mark), 5e-6);

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Impossible_numbers_are_misuse(double number)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ExposureValue.Av(number));
        Assert.Throws<ArgumentOutOfRangeException>(() => ExposureValue.Tv(number));
        Assert.Throws<ArgumentOutOfRangeException>(() => ExposureValue.Ev100(8, 1, number));
        Assert.Throws<ArgumentOutOfRangeException>(() => ExposureValue.Luminance(number, 1, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => ExposureValue.Illuminance(8, number, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => ExposureValue.FromLuminance(number));
        Assert.Throws<ArgumentOutOfRangeException>(() => ExposureValue.FromIlluminance(number));
        Assert.Throws<ArgumentOutOfRangeException>(() => FNumber.TrueValue(number));
    }

    [Fact]
    public void Stops_no_lens_has_are_misuse()
    {
        Assert.Throws<ArgumentOutOfRangeException>("stop", () => FNumber.OfStop(25));
        Assert.Throws<ArgumentOutOfRangeException>("stop", () => FNumber.OfStop(-9));
    }
}
