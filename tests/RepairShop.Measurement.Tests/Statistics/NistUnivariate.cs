namespace RepairShop.Measurement.Tests.Statistics;

/// <summary>
/// NIST Statistical Reference Datasets, univariate summary statistics (itl.nist.gov/div898/strd/univ): the data of three sets; the NumAcc sets are
/// made here by their published recipe.
/// </summary>
internal static class NistUnivariate
{
    public static double[] Of(string set) => set switch
    {
        "Lottery" => [.. Lottery],
        "Mavro" => [.. Mavro.Select(d => (20000 + d) / 10000.0)],
        "Michelso" => [.. Michelson.Select(d => (29900 + d) / 100.0)],
        "NumAcc1" => [10000001, 10000003, 10000002],
        "NumAcc2" => Alternating(1.2, 1.1, 1.3),
        "NumAcc3" => Alternating(1000000.2, 1000000.1, 1000000.3),
        "NumAcc4" => Alternating(10000000.2, 10000000.1, 10000000.3),
        _ => throw new ArgumentOutOfRangeException(nameof(set), set, "No such set."),
    };

    private static double[] Alternating(double first, double low, double high) =>
        [first, .. Enumerable.Repeat(new[] { low, high }, 500).SelectMany(pair => pair)];

    /// <summary>Ten-thousandths above 2.</summary>
    private static readonly int[] Mavro =
    [
        18, 17, 18, 19, 18, 17, 15, 14, 15, 15, 17, 18, 18, 19, 19, 21, 20, 16, 14, 13, 13, 15, 15, 16, 15,
        14, 13, 14, 15, 14, 15, 16, 15, 16, 19, 20, 20, 21, 22, 23, 24, 25, 27, 26, 26, 26, 27, 26, 25, 24,
    ];

    /// <summary>Hundredths above 299.</summary>
    private static readonly int[] Michelson =
    [
        85, 74, 90, 107, 93, 85, 95, 98, 98, 88, 100, 98, 93, 65, 76, 81, 100, 100, 96, 96, 96, 94, 96, 94, 88,
        80, 85, 88, 90, 84, 83, 79, 81, 88, 88, 83, 80, 79, 76, 80, 88, 88, 88, 86, 72, 72, 62, 86, 97, 95,
        88, 91, 85, 87, 84, 84, 85, 84, 84, 84, 89, 81, 81, 82, 80, 77, 76, 74, 75, 76, 91, 92, 89, 86, 88,
        72, 84, 85, 85, 78, 89, 84, 78, 81, 76, 81, 79, 81, 82, 85, 87, 87, 81, 74, 81, 94, 95, 80, 81, 87,
    ];

    private static readonly double[] Lottery =
    [
        162, 671, 933, 414, 788, 730, 817, 33, 536, 875, 670, 236, 473, 167, 877, 980, 316, 950, 456, 92, 517, 557, 956, 954, 104,
        178, 794, 278, 147, 773, 437, 435, 502, 610, 582, 780, 689, 562, 964, 791, 28, 97, 848, 281, 858, 538, 660, 972, 671, 613,
        867, 448, 738, 966, 139, 636, 847, 659, 754, 243, 122, 455, 195, 968, 793, 59, 730, 361, 574, 522, 97, 762, 431, 158, 429,
        414, 22, 629, 788, 999, 187, 215, 810, 782, 47, 34, 108, 986, 25, 644, 829, 630, 315, 567, 919, 331, 207, 412, 242, 607,
        668, 944, 749, 168, 864, 442, 533, 805, 372, 63, 458, 777, 416, 340, 436, 140, 919, 350, 510, 572, 905, 900, 85, 389, 473,
        758, 444, 169, 625, 692, 140, 897, 672, 288, 312, 860, 724, 226, 884, 508, 976, 741, 476, 417, 831, 15, 318, 432, 241, 114,
        799, 955, 833, 358, 935, 146, 630, 830, 440, 642, 356, 373, 271, 715, 367, 393, 190, 669, 8, 861, 108, 795, 269, 590, 326,
        866, 64, 523, 862, 840, 219, 382, 998, 4, 628, 305, 747, 247, 34, 747, 729, 645, 856, 974, 24, 568, 24, 694, 608, 480,
        410, 729, 947, 293, 53, 930, 223, 203, 677, 227, 62, 455, 387, 318, 562, 242, 428, 968,
    ];
}
