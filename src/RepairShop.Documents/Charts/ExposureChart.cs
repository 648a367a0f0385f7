using System.Globalization;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Charts;

/// <summary>
/// The light of one exposure over time, opening and closing shaded, its 50 % crossings and the fully open level marked; or two exposures of the
/// same marked speed laid over each other at their 50 % opening, as received thin and after service bold.
/// </summary>
public static class ExposureChart
{
    private const double Left = 30, Right = 70, Top = 16, Bottom = 24;

    /// <summary>One exposure alone.</summary>
    public static ChartDrawing Draw(TraceFacts trace, string name, CultureInfo culture, double width = 500, double height = 170)
    {
        var plot = new Plot([trace], width, height, culture);
        var marks = plot.Frame();
        var at = trace.Crossings;
        marks.InsertRange(0, [plot.Shade(ChartLook.Opening, at[0], at[3]), plot.Shade(ChartLook.Closing, at[4], at[7])]);
        foreach (var (time, word) in new[] { (at[2], "50 %"), (at[5], "50 %") })
        {
            marks.Add(new ChartLine(ChartLook.Crossing, plot.X(time), Top, plot.X(time), height - Bottom));
            marks.Add(new ChartText(ChartLook.Note, plot.X(time), Top - 4, word, ChartAnchor.Middle));
        }

        marks.Add(plot.Line(ChartLook.AfterTrace, trace));
        foreach (var (time, level) in new[] { (at[1], 0.1), (at[2], 0.5), (at[3], 0.9), (at[4], 0.9), (at[5], 0.5), (at[6], 0.1) })
            marks.Add(new ChartDot(ChartLook.After, plot.X(time), plot.Y(level), 2.2));
        if (trace.OpenLevel is { } open)
        {
            marks.Add(new ChartLine(ChartLook.Limit, Left, plot.Y(open), width - Right, plot.Y(open)));
            marks.Add(new ChartText(ChartLook.Note, width - Right + 6, plot.Y(open) + 3, "fully open", ChartAnchor.Start));
        }

        return plot.Finish(marks, $"Light over time, {name}", $"Opening {Ms(at[3] - at[1], culture)}, 50 % width {Ms(at[5] - at[2], culture)}, closing {Ms(at[6] - at[4], culture)}.");
    }

    /// <summary>Before and after at one marked speed; null where neither was recorded.</summary>
    public static ChartDrawing? Overlay(SpeedTraceFacts speed, CultureInfo culture, double width = 500, double height = 170)
    {
        TraceFacts[] traces = [.. new[] { speed.AsReceived, speed.AfterService }.OfType<TraceFacts>()];
        if (traces.Length == 0)
            return null;
        var plot = new Plot(traces, width, height, culture);
        var marks = plot.Frame();
        foreach (var (trace, look, word, row) in new[] { (speed.AsReceived, ChartLook.BeforeTrace, "as received", 0), (speed.AfterService, ChartLook.AfterTrace, "after service", 1) })
        {
            if (trace is null)
                continue;
            marks.Add(plot.Line(look, trace));
            var dot = look == ChartLook.BeforeTrace ? ChartLook.Before : ChartLook.After;
            marks.Add(new ChartDot(dot, plot.X(0), plot.Y(0.5), 2.2));
            marks.Add(new ChartDot(dot, plot.X(trace.Crossings[5]), plot.Y(0.5), 2.2));
            marks.Add(new ChartText(ChartLook.Label, width - Right + 6, plot.Y(0.5) - 4 + row * 13, $"{(row == 0 ? "○" : "●")} {word}", ChartAnchor.Start));
        }

        return plot.Finish(marks, $"Light over time at {speed.MarkedSpeed}", Words(speed, culture));
    }

    /// <summary>Width and closing time before and after, in words.</summary>
    public static string Words(SpeedTraceFacts speed, CultureInfo culture) => string.Join(' ', new[] { ("As received", speed.AsReceived), ("After service", speed.AfterService) }
        .Where(side => side.Item2 is not null).Select(side => $"{side.Item1}: {Words(side.Item2!, culture)}"));

    private static string Words(TraceFacts trace, CultureInfo culture) =>
        $"50 % width {Ms(trace.Crossings[5] - trace.Crossings[2], culture)}, closing {Ms(trace.Crossings[6] - trace.Crossings[4], culture)}.";

    private static string Ms(double milliseconds, CultureInfo culture) =>
        milliseconds.ToString(Math.Abs(milliseconds) < 10 ? "0.00" : "0.0", culture) + " ms";

    private sealed class Plot
    {
        private readonly double width, height, from, to, low, high;
        private readonly CultureInfo culture;

        public Plot(IReadOnlyList<TraceFacts> traces, double width, double height, CultureInfo culture)
        {
            (this.width, this.height, this.culture) = (width, height, culture);
            from = traces.Min(trace => trace.Milliseconds.Count == 0 ? -1 : trace.Milliseconds[0]);
            to = traces.Max(trace => trace.Milliseconds.Count == 0 ? 1 : trace.Milliseconds[^1]);
            low = Math.Min(-0.08, traces.Min(trace => trace.Values.DefaultIfEmpty().Min()));
            high = Math.Max(1.08, traces.Max(trace => Math.Max(trace.Values.DefaultIfEmpty().Max(), (trace.OpenLevel ?? 0) * 1.05)));
        }

        public double X(double milliseconds) => Left + (milliseconds - from) / (to - from) * (width - Left - Right);

        public double Y(double level) => Top + (high - level) / (high - low) * (height - Top - Bottom);

        public ChartRect Shade(ChartLook look, double start, double end) =>
            new(look, X(start), Top, Math.Max(0.5, X(end) - X(start)), height - Top - Bottom);

        public ChartPath Line(ChartLook look, TraceFacts trace) =>
            new(look, [.. trace.Milliseconds.Zip(trace.Values, (time, value) => (X(time), Y(value)))]);

        /// <summary>Time in round steps along the foot, light in halves up the side.</summary>
        public List<ChartMark> Frame()
        {
            var marks = new List<ChartMark>();
            foreach (var level in new[] { 0, 0.5, 1 })
            {
                marks.Add(new ChartLine(level == 0 ? ChartLook.Zero : ChartLook.Grid, Left, Y(level), width - Right, Y(level)));
                marks.Add(new ChartText(ChartLook.Label, Left - 5, Y(level) + 3, level.ToString("P0", culture), ChartAnchor.End));
            }

            var (tick, decimals) = TickOf(to - from);
            for (var n = Math.Ceiling(from / tick); n * tick <= to; n++)
            {
                var time = n == 0 ? 0 : n * tick; // never −0
                marks.Add(new ChartLine(ChartLook.Tick, X(time), Y(low), X(time), Y(low) + 3));
                marks.Add(new ChartText(ChartLook.TickLabel, X(time), height - Bottom + 14, Figure(time, decimals, culture), ChartAnchor.Middle));
            }

            marks.Add(new ChartText(ChartLook.Note, width - Right + 6, height - Bottom + 14, "ms", ChartAnchor.Start));
            return marks;
        }

        public ChartDrawing Finish(List<ChartMark> marks, string title, string words) => new(width, height, title, words, marks)
        {
            Span = new ChartSpan(Left, width - Right, from, to, culture.NumberFormat.NegativeSign, culture.NumberFormat.NumberDecimalSeparator),
        };

        /// <summary>1, 2 or 5 of some power of ten, about six to the width, and the decimals that tell one from the next. The script that zooms does the same.</summary>
        private static (double Tick, int Decimals) TickOf(double span)
        {
            var rough = span / 6;
            var exponent = (int)Math.Floor(Math.Log10(rough));
            var power = Math.Pow(10, exponent);
            var times = (rough / power) switch { <= 1 => 1, <= 2 => 2, <= 5 => 5, _ => 10 };
            return (times * power, Math.Max(0, -(times == 10 ? exponent + 1 : exponent)));
        }

        private static string Figure(double time, int decimals, CultureInfo culture) => time.ToString("F" + decimals, culture);
    }
}
