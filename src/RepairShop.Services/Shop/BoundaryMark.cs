using System.Globalization;
using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Services.Shop;

/// <summary>The speed at which the slow limit gives way to the fast one, as it stands on a dial.</summary>
internal static class BoundaryMark
{
    /// <summary>Seconds; null when it is no mark between 10 s and 1/8000.</summary>
    public static double? Read(string typed)
    {
        var (mark, _) = MarkedSpeed.Parse(typed);
        return mark?.LiteralSeconds is { } seconds and >= 1.0 / 8000 and <= 10 ? seconds : null;
    }

    public static string Write(double seconds)
    {
        var text = seconds.ToString("R", CultureInfo.InvariantCulture) + " s";
        var (mark, _) = MarkedSpeed.Parse(text);
        return mark?.Text ?? text;
    }
}
