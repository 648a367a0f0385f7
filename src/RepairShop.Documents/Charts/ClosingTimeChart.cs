using System.Globalization;
using System.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Charts;

/// <summary>Closing time (90 → 10 %) at each marked speed, as received hollow and after service filled: a healthy shutter snaps.</summary>
public static class ClosingTimeChart
{
    private const double Left = 44, Right = 64, Top = 6, RowHeight = 18, Bottom = 24;

    /// <summary>Rows without a closing time are left out; null when none has one.</summary>
    public static ChartDrawing? Draw(IReadOnlyList<ShutterRowFacts> rows, CultureInfo culture, double width = 500)
    {
        var shown = rows.Where(r => r.AsReceived?.ClosingMilliseconds is not null || r.AfterService?.ClosingMilliseconds is not null).ToList();
        if (shown.Count == 0)
            return null;
        var longest = shown.Max(r => Math.Max(r.AsReceived?.ClosingMilliseconds ?? 0, r.AfterService?.ClosingMilliseconds ?? 0));
        var tick = TickOf(longest);
        var end = Math.Max(tick, Math.Ceiling(longest / tick - 1e-9) * tick);
        var height = Top + RowHeight * shown.Count + Bottom;
        double X(double milliseconds) => Left + milliseconds / end * (width - Left - Right);

        var marks = new List<ChartMark>();
        var floor = height - Bottom;
        for (var n = 0; n * tick <= end + 1e-9; n++)
        {
            marks.Add(new ChartLine(n == 0 ? ChartLook.Zero : ChartLook.Grid, X(n * tick), Top, X(n * tick), floor));
            var figure = (n * tick).ToString(tick < 1 ? "0.0" : "0", culture);
            marks.Add(new ChartText(ChartLook.Label, X(n * tick), floor + 12, n * tick >= end - 1e-9 ? figure + " ms" : figure, ChartAnchor.Middle));
        }
        var text = new StringBuilder("Milliseconds from 90 to 10 % of the light. ");
        for (var i = 0; i < shown.Count; i++)
            AddRow(marks, text, shown[i], Top + RowHeight * (i + 0.5), X, culture, named: i == 0);
        return new ChartDrawing(width, height, "Closing time at each marked speed", text.ToString().TrimEnd(), marks);
    }

    private static void AddRow(List<ChartMark> marks, StringBuilder text, ShutterRowFacts row, double y, Func<double, double> x, CultureInfo culture, bool named)
    {
        marks.Add(new ChartText(ChartLook.Label, Left - 8, y + 3, row.MarkedSpeed, ChartAnchor.End));
        var (before, after) = (row.AsReceived?.ClosingMilliseconds, row.AfterService?.ClosingMilliseconds);
        text.Append(row.MarkedSpeed).Append(':');
        if (before is { } b && after is { } a)
            marks.Add(new ChartLine(ChartLook.AfterLink, x(b), y, x(a), y));
        if (before is { } was)
        {
            marks.Add(new ChartDot(ChartLook.Before, x(was), y, 3));
            Label(marks, x(was), y, "as received", was, toRight: was >= (after ?? double.MinValue), named, culture);
            text.Append(" as received ").Append(Figure(was, culture)).Append(',');
        }
        if (after is { } now)
        {
            marks.Add(new ChartDot(ChartLook.After, x(now), y, 3));
            Label(marks, x(now), y, "after service", now, toRight: now > (before ?? double.MinValue), named, culture);
            text.Append(" after service ").Append(Figure(now, culture)).Append(',');
        }
        text.Append(' ');
    }

    /// <summary>The figure stands beside its mark; the first row also says which mark is which.</summary>
    private static void Label(List<ChartMark> marks, double x, double y, string name, double value, bool toRight, bool named, CultureInfo culture)
    {
        var figure = Figure(value, culture);
        var words = named ? toRight ? $"{figure} {name}" : $"{name} {figure}" : figure;
        // Left of a mark near the axis there is no room for a name.
        if (!toRight && x - Left < (named ? 84 : 22))
            words = x - Left < 22 ? "" : figure;
        if (words.Length > 0)
            marks.Add(new ChartText(ChartLook.Label, toRight ? x + 7 : x - 7, y + 3, words, toRight ? ChartAnchor.Start : ChartAnchor.End));
    }

    /// <summary>A focal-plane edge takes tenths of a millisecond: one digit would hide what changed.</summary>
    private static string Figure(double milliseconds, CultureInfo culture) => milliseconds.ToString(milliseconds < 1 ? "0.00" : "0.0", culture);

    private static double TickOf(double longest) => longest switch { <= 2 => 0.5, <= 5 => 1, <= 12 => 2, <= 25 => 5, <= 60 => 10, _ => 50 };
}
