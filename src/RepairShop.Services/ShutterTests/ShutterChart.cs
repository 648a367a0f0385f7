using System.Globalization;
using RepairShop.Documents.Charts;

namespace RepairShop.Services.ShutterTests;

/// <summary>The chart of errors in stops, the same on screen as on paper.</summary>
public static class ShutterChart
{
    /// <summary>As SVG, with a title and a description in words.</summary>
    /// <param name="both">Both ends of the job.</param>
    /// <param name="withAfter">Without, the after-service readings are left out.</param>
    public static string Svg(BeforeAndAfter both, bool withAfter)
    {
        ArgumentNullException.ThrowIfNull(both);
        var rows = withAfter
            ? both.Rows
            : [.. both.Rows.Where(row => row.AsReceived is not null).Select(row => row with { AfterService = null })];
        return rows.Count == 0 ? "" : ChartSvg.Write(ErrorInStopsChart.Draw(rows, CultureInfo.CurrentCulture), withAfter ? "after-service-chart" : "as-received-chart");
    }
}
