using System.Globalization;
using System.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Charts;

/// <summary>
/// Error in stops at each marked speed: limits shaded, as received hollow, after service filled, each with its bar of expanded
/// uncertainty. Up is longer.
/// </summary>
public static class ErrorInStopsChart
{
    private const double Left = 34, Right = 74, Top = 12, Bottom = 22, Dodge = 4.5, Radius = 3;

    /// <param name="rows">In the order of the dial.</param>
    /// <param name="culture">How figures are written.</param>
    /// <param name="width">Points or user units.</param>
    /// <param name="height">Points or user units.</param>
    public static ChartDrawing Draw(IReadOnlyList<ShutterRowFacts> rows, CultureInfo culture, double width = 500, double height = 168)
    {
        var marks = new List<ChartMark>();
        var (low, high) = Range(rows);
        var step = (width - Left - Right) / Math.Max(1, rows.Count);
        double X(int row) => Left + step * (row + 0.5);
        double Y(double stops) => Top + (high - stops) / (high - low) * (height - Top - Bottom);

        for (var i = 0; i < rows.Count; i++)
            if (rows[i] is { LowerLimitStops: { } lower, UpperLimitStops: { } upper })
                marks.Add(new ChartRect(ChartLook.Band, X(i) - step / 2, Y(upper), step, Y(lower) - Y(upper)));
        var tick = TickOf(high - low);
        for (var n = (int)Math.Ceiling(low / tick); n * tick <= high + 1e-9; n++)
        {
            marks.Add(new ChartLine(n == 0 ? ChartLook.Zero : ChartLook.Grid, Left, Y(n * tick), width - Right, Y(n * tick)));
            marks.Add(new ChartText(ChartLook.Label, Left - 6, Y(n * tick) + 3, Signed(n * tick, culture, tick < 0.5 ? 2 : 1), ChartAnchor.End));
        }
        for (var i = 0; i < rows.Count; i++)
            marks.Add(new ChartText(ChartLook.Label, X(i), height - 6, rows[i].MarkedSpeed, ChartAnchor.Middle));
        marks.Add(new ChartText(ChartLook.Note, width - Right + 8, Top + 4, "too long ↑", ChartAnchor.Start));
        marks.Add(new ChartText(ChartLook.Note, width - Right + 8, height - Bottom, "too short ↓", ChartAnchor.Start));

        // With one series alone the marks stand on the speed; with two they stand side by side, so that neither hides the other.
        var both = rows.Any(r => r.AsReceived is not null) && rows.Any(r => r.AfterService is not null);
        var before = Series(rows, r => r.AsReceived, n => X(n) - (both ? Dodge : 0), Y);
        var after = Series(rows, r => r.AfterService, n => X(n) + (both ? Dodge : 0), Y);
        Add(marks, before, ChartLook.Before, ChartLook.BeforeLink);
        Add(marks, after, ChartLook.After, ChartLook.AfterLink);
        NameSeries(marks, before, after, width - Right + 8);
        return new ChartDrawing(width, height, "Error in stops at each marked speed", Describe(rows, culture), marks);
    }

    private sealed record Point(double X, double Y, double? BarTop, double? BarBottom);

    private static List<Point> Series(IReadOnlyList<ShutterRowFacts> rows, Func<ShutterRowFacts, SpeedFiguresFacts?> pick, Func<int, double> x, Func<double, double> y)
    {
        var points = new List<Point>();
        for (var i = 0; i < rows.Count; i++)
            if (pick(rows[i]) is { } figures)
                points.Add(new Point(x(i), y(figures.ErrorStops),
                    figures.UncertaintyStops is { } u ? y(figures.ErrorStops + u) : null,
                    figures.UncertaintyStops is { } v ? y(figures.ErrorStops - v) : null));
        return points;
    }

    private static void Add(List<ChartMark> marks, List<Point> points, ChartLook look, ChartLook link)
    {
        for (var i = 1; i < points.Count; i++)
            marks.Add(new ChartLine(link, points[i - 1].X, points[i - 1].Y, points[i].X, points[i].Y));
        foreach (var point in points)
        {
            if (point is { BarTop: { } top, BarBottom: { } bottom })
            {
                marks.Add(new ChartLine(look, point.X, top, point.X, bottom));
                marks.Add(new ChartLine(look, point.X - 2, top, point.X + 2, top));
                marks.Add(new ChartLine(look, point.X - 2, bottom, point.X + 2, bottom));
            }
            marks.Add(new ChartDot(look, point.X, point.Y, Radius));
        }
    }

    /// <summary>The name stands at the end of its own line; names too close are moved apart.</summary>
    private static void NameSeries(List<ChartMark> marks, List<Point> before, List<Point> after, double x)
    {
        const double apart = 12;
        var beforeY = before.Count > 0 ? before[^1].Y + 3 : (double?)null;
        var afterY = after.Count > 0 ? after[^1].Y + 3 : (double?)null;
        if (beforeY is { } b && afterY is { } a && Math.Abs(b - a) < apart)
        {
            var middle = (a + b) / 2;
            (beforeY, afterY) = b <= a ? (middle - apart / 2, middle + apart / 2) : (middle + apart / 2, middle - apart / 2);
        }
        if (beforeY is { } y1)
            marks.Add(new ChartText(ChartLook.Label, x, y1, "○ as received", ChartAnchor.Start));
        if (afterY is { } y2)
            marks.Add(new ChartText(ChartLook.Label, x, y2, "● after service", ChartAnchor.Start));
    }

    private static (double Low, double High) Range(IReadOnlyList<ShutterRowFacts> rows)
    {
        var reach = 0.5;
        foreach (var row in rows)
        {
            foreach (var figures in (SpeedFiguresFacts?[])[row.AsReceived, row.AfterService])
                if (figures is not null)
                    reach = Math.Max(reach, Math.Abs(figures.ErrorStops) + (figures.UncertaintyStops ?? 0));
            reach = Math.Max(reach, Math.Max(Math.Abs(row.LowerLimitStops ?? 0), Math.Abs(row.UpperLimitStops ?? 0)) + 0.05);
        }
        var tick = TickOf(2 * reach);
        reach = Math.Ceiling(reach / tick - 1e-9) * tick;
        return (-reach, reach);
    }

    private static double TickOf(double range) => range switch { <= 1.6 => 0.25, <= 3.2 => 0.5, <= 8 => 1, <= 20 => 2, _ => 5 };

    internal static string Signed(double stops, CultureInfo culture, int decimals)
    {
        var rounded = Math.Round(stops, decimals, MidpointRounding.AwayFromZero);
        var digits = Math.Abs(rounded).ToString("F" + decimals, culture);
        return rounded == 0 ? digits : (rounded > 0 ? "+" : "−") + digits;
    }

    private static string Describe(IReadOnlyList<ShutterRowFacts> rows, CultureInfo culture)
    {
        var text = new StringBuilder("Plus is longer than marked. ");
        foreach (var row in rows)
        {
            text.Append(row.MarkedSpeed).Append(':');
            Describe(text, " as received", row.AsReceived, culture);
            Describe(text, " after service", row.AfterService, culture);
            if (row is { LowerLimitStops: { } low, UpperLimitStops: { } high })
                text.Append(" limits ").Append(Signed(low, culture, 2)).Append(" to ").Append(Signed(high, culture, 2)).Append('.');
            text.Append(' ');
        }
        return text.ToString().TrimEnd();
    }

    private static void Describe(StringBuilder text, string session, SpeedFiguresFacts? figures, CultureInfo culture)
    {
        if (figures is null)
            return;
        text.Append(session).Append(' ').Append(Signed(figures.ErrorStops, culture, 2));
        if (figures.UncertaintyStops is { } u)
            text.Append(" ± ").Append(u.ToString("F2", culture));
        text.Append(',');
    }
}
