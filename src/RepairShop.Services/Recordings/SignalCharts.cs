using System.Globalization;
using RepairShop.Documents.Charts;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Services.Recordings;

/// <summary>Charts of recorded light as SVG, the same as on paper.</summary>
public static class SignalCharts
{
    /// <param name="exposure">Whose light.</param>
    /// <param name="name">What it is called in the chart's title: exposure 2.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Exposure(ExposureSummary exposure, string name, string id)
    {
        ArgumentNullException.ThrowIfNull(exposure);
        return ChartSvg.Write(ExposureChart.Draw(exposure.Trace, name, CultureInfo.CurrentCulture), id);
    }

    /// <summary>The figures beside two signals laid over each other.</summary>
    public static string Words(SpeedTraceFacts speed) => ExposureChart.Words(speed, CultureInfo.CurrentCulture);

    /// <summary>Before and after laid over each other; empty where neither was recorded.</summary>
    public static string Overlay(SpeedTraceFacts speed, string id) =>
        ExposureChart.Overlay(speed, CultureInfo.CurrentCulture) is { } drawing ? ChartSvg.Write(drawing, id) : "";

    /// <summary>Closing times before and after; empty where none was recorded.</summary>
    public static string Closing(IReadOnlyList<ShutterRowFacts> rows, string id) =>
        ClosingTimeChart.Draw(rows, CultureInfo.CurrentCulture) is { } drawing ? ChartSvg.Write(drawing, id) : "";
}
