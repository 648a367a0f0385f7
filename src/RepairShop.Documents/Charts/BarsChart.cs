using System.Text;

namespace RepairShop.Documents.Charts;

/// <summary>One row of a <see cref="BarsChart"/>: a bar for each series; null draws none.</summary>
/// <param name="Label">Stands left of the bars.</param>
/// <param name="Bars">The value, and how it is written beside its bar.</param>
public sealed record BarRow(string Label, IReadOnlyList<(double? Value, string Text)> Bars);

/// <summary>Bars lying one under another from a common zero line, each with its figure at its end: the first series filled, the
/// second hollow. The first row names them.</summary>
public static class BarsChart
{
    private const double Left = 112, Right = 116, Top = 6, Bar = 9, Apart = 3, Between = 7;

    /// <param name="title">What it shows.</param>
    /// <param name="names">Of the series; two at most.</param>
    /// <param name="rows">From top to bottom.</param>
    /// <param name="width">Points or user units.</param>
    /// <returns>Null when there is no bar to draw.</returns>
    public static ChartDrawing? Draw(string title, IReadOnlyList<string> names, IReadOnlyList<BarRow> rows, double width = 500)
    {
        var values = rows.SelectMany(row => row.Bars).Select(bar => bar.Value ?? 0).ToList();
        var (low, high) = (Math.Min(0, values.DefaultIfEmpty().Min()), Math.Max(0, values.DefaultIfEmpty().Max()));
        if (high - low <= 0)
            return null;
        // Room for the figure of a bar that goes left.
        var left = low < 0 ? Left + 64 : Left;
        double X(double value) => left + (value - low) / (high - low) * (width - left - Right);
        var rowHeight = names.Count * Bar + (names.Count - 1) * Apart + Between;
        var height = Top + rows.Count * rowHeight + 2;
        var marks = new List<ChartMark> { new ChartLine(ChartLook.Zero, X(0), Top - 2, X(0), height - Between) };
        for (var index = 0; index < rows.Count; index++)
            AddRow(marks, rows[index], Top + index * rowHeight, X, index == 0 && names.Count > 1 ? names : []);
        return new ChartDrawing(width, height, title, Describe(names, rows), marks);
    }

    private static void AddRow(List<ChartMark> marks, BarRow row, double top, Func<double, double> x, IReadOnlyList<string> names)
    {
        var middle = top + (row.Bars.Count * Bar + (row.Bars.Count - 1) * Apart) / 2;
        marks.Add(new ChartText(ChartLook.Label, Left - 8, middle + 3.5, Short(row.Label), ChartAnchor.End));
        for (var series = 0; series < row.Bars.Count; series++)
        {
            if (row.Bars[series] is not ({ } value, var text))
                continue;
            var y = top + series * (Bar + Apart);
            var (from, to) = (x(Math.Min(0, value)), x(Math.Max(0, value)));
            if (to > from)
                marks.Add(new ChartRect(series == 0 ? ChartLook.After : ChartLook.Before, from, y, to - from, Bar));
            var words = names.Count > series ? $"{text} {names[series]}" : text;
            marks.Add(value < 0
                ? new ChartText(ChartLook.Label, from - 5, y + Bar - 1, words, ChartAnchor.End)
                : new ChartText(ChartLook.Label, to + 5, y + Bar - 1, words, ChartAnchor.Start));
        }
    }

    private static string Short(string label) => label.Length <= 22 ? label : label[..21].TrimEnd() + "…";

    private static string Describe(IReadOnlyList<string> names, IReadOnlyList<BarRow> rows)
    {
        var text = new StringBuilder();
        foreach (var row in rows)
        {
            text.Append(row.Label).Append(':');
            for (var series = 0; series < row.Bars.Count; series++)
                text.Append(' ').Append(row.Bars[series].Value is null ? "none" : row.Bars[series].Text).Append(names.Count > 1 ? $" {names[series]}," : ",");
            text.Length--;
            text.Append(". ");
        }
        return text.ToString().TrimEnd();
    }
}
