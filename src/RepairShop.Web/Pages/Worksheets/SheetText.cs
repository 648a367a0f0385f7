using System.Globalization;

namespace RepairShop.Web.Pages.Worksheets;

/// <summary>Figures of worksheets as people read them, and coordinates as SVG wants them.</summary>
public static class SheetText
{
    public static string Number(double value, string format = "0.###") =>
        value.ToString(format, CultureInfo.CurrentCulture).Replace('-', '−');

    public static string Stops(double stops) => stops.ToString("+0.00;−0.00;0.00", CultureInfo.CurrentCulture);

    /// <summary>For SVG: never a comma.</summary>
    public static string At(double value) => Math.Round(value, 3).ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>A distance from a lens or film: metres to three figures, from 10 km on "beyond 10 km".</summary>
    public static string Metres(double millimetres) => millimetres switch
    {
        >= 1e7 => "beyond 10 km",
        >= 1e5 => Number(millimetres / 1000, "0") + " m",
        >= 1e4 => Number(millimetres / 1000, "0.0") + " m",
        _ => Number(millimetres / 1000, "0.000") + " m",
    };

    public static string Seconds(double seconds) =>
        seconds < 60 ? Number(Math.Ceiling(seconds * 10) / 10, "0.0") + " s" : $"{Number(Math.Floor(seconds / 60), "0")} min {Number(Math.Ceiling(seconds % 60), "00")} s";
}
