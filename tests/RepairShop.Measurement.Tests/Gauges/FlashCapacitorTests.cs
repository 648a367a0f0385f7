using RepairShop.Measurement.Gauges;
using Xunit;

namespace RepairShop.Measurement.Tests.Gauges;

public class FlashCapacitorTests
{
    /// <summary>E = ½CV², of capacities and voltages usual in camera flashes (voltages: D. Klipstein, "Xenon strobe safety").</summary>
    [Theory]
    [InlineData(120e-6, 330, 6.534)]
    [InlineData(160e-6, 330, 8.712)]
    [InlineData(100e-6, 300, 4.5)]
    [InlineData(1000e-6, 300, 45)]
    public void Holds_half_C_V_squared(double farads, double volts, double joules) =>
        Assert.Equal(joules, new FlashCapacitor(farads, volts, 1000).Joules, 1e-9);

    /// <summary>330²/1000 is 109 W at the first moment, a tenth of that at 10 kΩ.</summary>
    [Theory]
    [InlineData(1000, 108.9)]
    [InlineData(10000, 10.89)]
    public void The_resistor_takes_V_squared_over_R_at_first(double ohms, double watts) =>
        Assert.Equal(watts, new FlashCapacitor(120e-6, 330, ohms).PeakWatts, 1e-9);

    /// <summary>t = RC·ln(V0/Vsafe): 120 µF through 10 kΩ is 1.2 s; ln 330 = 5.7991, ln 66 = 4.1897.</summary>
    [Theory]
    [InlineData(1, 6.95891)]
    [InlineData(5, 5.02759)]
    public void The_wait_follows_from_what_may_be_left(double safe, double seconds)
    {
        var capacitor = new FlashCapacitor(120e-6, 330, 10_000, safe);
        Assert.Equal(seconds, capacitor.WaitSeconds, 5e-5);
        Assert.Equal(safe, capacitor.VoltsAfter(capacitor.WaitSeconds), 1e-9);
    }

    [Fact]
    public void Five_time_constants_leave_more_than_a_volt_of_330()
    {
        var capacitor = new FlashCapacitor(120e-6, 330, 10_000);
        Assert.Equal(2.2235, capacitor.VoltsAfter(5 * capacitor.TimeConstantSeconds), 5e-5);
        Assert.True(capacitor.WaitSeconds > 5 * capacitor.TimeConstantSeconds);
    }

    [Fact]
    public void Nothing_above_safe_needs_no_wait() => Assert.Equal(0, new FlashCapacitor(120e-6, 0.9, 1000).WaitSeconds);

    [Theory]
    [InlineData(0, 330, 1000, 1)]
    [InlineData(120e-6, -1, 1000, 1)]
    [InlineData(120e-6, 330, double.NaN, 1)]
    [InlineData(120e-6, 330, 1000, 0)]
    public void Nonsense_is_misuse(double farads, double volts, double ohms, double safe) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new FlashCapacitor(farads, volts, ohms, safe));
}
