using System.Globalization;
using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Web.Pages.Work;

/// <summary>Figures of a shutter test as they stand in cells.</summary>
public static class Figures
{
    public const string Nothing = "–";

    /// <summary>+0.07 or −0.31, with a true minus.</summary>
    public static string Stops(double? stops) => stops switch
    {
        null => Nothing,
        var value when Math.Round(value.Value, 2) == 0 => 0.ToString("0.00", CultureInfo.CurrentCulture),
        { } value => (value > 0 ? "+" : "−") + Math.Abs(value).ToString("0.00", CultureInfo.CurrentCulture),
    };

    public static string Plain(double? stops) => stops is { } value ? value.ToString("0.00", CultureInfo.CurrentCulture) : Nothing;

    /// <summary>An uncertainty in stops, rounded up so that it never says zero (GUM 7.2.6 allows rounding up).</summary>
    public static string Uncertainty(double stops) => (Math.Ceiling(stops * 100) / 100).ToString("0.00", CultureInfo.CurrentCulture);

    public static string Milliseconds(double? seconds) =>
        seconds is not { } value ? Nothing : value <= 0 ? "0" : TimeText.Milliseconds(value, CultureInfo.CurrentCulture).Replace(" ms", "", StringComparison.Ordinal);

    /// <summary>A recorded time in milliseconds with four digits, trailing zeros kept: 1532, 53.10, 0.2873.</summary>
    public static string FourDigits(double? seconds)
    {
        if (seconds is not { } value)
            return Nothing;
        var ms = value * 1000;
        var decimals = ms <= 0 ? 3 : Math.Clamp(3 - (int)Math.Floor(Math.Log10(ms)), 0, 4);
        return ms.ToString("F" + decimals, CultureInfo.CurrentCulture);
    }

    /// <summary>A scatter in milliseconds, with two digits that say something: 0.057, 1.2.</summary>
    public static string Deviation(double? seconds)
    {
        if (seconds is not { } value)
            return Nothing;
        var ms = value * 1000;
        var decimals = ms <= 0 ? 0 : Math.Clamp(1 - (int)Math.Floor(Math.Log10(ms)), 0, 6);
        return ms.ToString("F" + decimals, CultureInfo.CurrentCulture);
    }

    public static string PlusMinus(double? seconds) => seconds is null ? Nothing : "± " + Deviation(seconds);

    public static string Time(double? seconds) => seconds is { } value ? TimeText.Photographic(value, CultureInfo.CurrentCulture) : Nothing;
}
