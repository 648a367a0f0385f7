using System.Globalization;

namespace RepairShop.Browser.Tests.WholeJob;

/// <summary>What goes into the story and, worked out here by hand and not by the product, what has to come out of it.</summary>
public static class Figures
{
    public const string ShopName = "Harbour Steps Camera Repair";
    public const string ShopEmail = "bench@shop.example.com";
    public const string Owner = "Odile Farrow";
    public const string OwnerEmail = "owner@shop.example.com";
    public const string OwnerPassword = "seven quiet lanterns";
    public const string Customer = "Wendeline Okoro";
    public const string CustomerEmail = "w.okoro@example.com";
    public const string Camera = "Tarnwick Meridian";

    public const decimal LabourRate = 78.00m;
    public const decimal TaxPercent = 21m;
    public const decimal PartPrice = 18.35m;

    // 2 h 20 min, rounded up to the next quarter of an hour.
    public const string Worked = "2:20";
    public const decimal InvoicedHours = 2.5m;
    public const decimal LowHours = 2m;
    public const decimal HighHours = 3m;

    public static decimal EstimateLow => WithTax(Net(LowHours));

    public static decimal EstimateHigh => WithTax(Net(HighHours));

    public static decimal InvoiceNet => Net(InvoicedHours);

    public static decimal InvoiceTotal => WithTax(InvoiceNet);

    public const decimal FirstPayment = 100m;

    /// <summary>As received: marks, what is typed, the readings in seconds, and the time the mark is held against (an old row: as written).</summary>
    public static IReadOnlyList<Measured> AsReceived { get; } =
    [
        new("1 s", "1.44 s; 1.46 s; 1.43 s", [1.44, 1.46, 1.43], 1),
        new("1/100", "13.1 13.4 13.3 ms", [0.0131, 0.0134, 0.0133], 1 / 100.0),
    ];

    public static IReadOnlyList<Measured> AfterService { get; } =
    [
        new("1 s", "1.02 s; 1.03 s; 1.02 s", [1.02, 1.03, 1.02], 1),
        new("1/100", "9.4 9.5 9.6 ms", [0.0094, 0.0095, 0.0096], 1 / 100.0),
    ];

    private static decimal Net(decimal hours) => (hours * LabourRate) + PartPrice;

    private static decimal WithTax(decimal net) => net + Math.Round(net * TaxPercent / 100, 2, MidpointRounding.AwayFromZero);

    public static string Plain(decimal amount) => amount.ToString("0.00", CultureInfo.InvariantCulture);
}

/// <param name="Mark">As the dial says.</param>
/// <param name="Typed">As a photographer writes them.</param>
/// <param name="Seconds">The same readings in seconds.</param>
/// <param name="Reference">The time they are held against, in seconds.</param>
public sealed record Measured(string Mark, string Typed, double[] Seconds, double Reference)
{
    /// <summary>log2(mean / reference) with its sign, to two decimals, as it has to stand on screen and paper.</summary>
    public string ErrorStops
    {
        get
        {
            var stops = Math.Log2(Seconds.Average() / Reference);
            return (stops > 0 ? "+" : "−") + Math.Abs(stops).ToString("0.00", CultureInfo.InvariantCulture);
        }
    }
}
