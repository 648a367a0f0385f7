using System.Globalization;
using System.Xml.Linq;
using RepairShop.Documents.Charts;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.Charts;

public class ExposureChartTests
{
    private static readonly CultureInfo English = CultureInfo.GetCultureInfo("en-IE");
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>Opens over 2 ms, rests 6 ms, closes over 4 ms; 0 is where half the light has come.</summary>
    internal static TraceFacts Trace(double closing = 4, double? open = 1) => new()
    {
        Milliseconds = [-5, -1, 1, 7, (float)(7 + closing), (float)(10 + closing)],
        Values = [0, 0, 1, 1, 0, 0],
        Crossings = [-1, -0.8, 0, 0.8, 7 + 0.1 * closing, 7 + 0.5 * closing, 7 + 0.9 * closing, 7 + closing],
        OpenLevel = open,
    };

    private static SpeedTraceFacts Speed(TraceFacts? before, TraceFacts? after) => new() { MarkedSpeed = "1/125", AsReceived = before, AfterService = after };

    [Fact]
    public void Opening_and_closing_are_shaded_as_wide_as_they_last()
    {
        var drawing = ExposureChart.Draw(Trace(), "exposure 1", English);
        var opening = drawing.Marks.OfType<ChartRect>().Single(rect => rect.Look == ChartLook.Opening);
        var closing = drawing.Marks.OfType<ChartRect>().Single(rect => rect.Look == ChartLook.Closing);
        // First opening to 90 % is 1.8 ms, 90 % to closed 3.6 ms.
        Assert.Equal(2, closing.Width / opening.Width, 6);
        var crossings = drawing.Marks.OfType<ChartLine>().Where(line => line.Look == ChartLook.Crossing).ToList();
        Assert.Equal(2, crossings.Count);
        // 50 % to 50 % is 9 ms where opening's shade is 1.8 ms.
        Assert.Equal(9 / 1.8, (crossings[1].X1 - crossings[0].X1) / opening.Width, 6);
        Assert.Equal("Opening 1.60 ms, 50 % width 9.00 ms, closing 3.20 ms.", drawing.Description);
    }

    [Fact]
    public void The_fully_open_level_is_drawn_where_it_is_known_and_only_there()
    {
        Assert.Single(ExposureChart.Draw(Trace(open: 1.4), "e", English).Marks, mark => mark.Look == ChartLook.Limit);
        Assert.DoesNotContain(ExposureChart.Draw(Trace(open: null), "e", English).Marks, mark => mark.Look == ChartLook.Limit);
    }

    [Fact]
    public void Before_and_after_are_laid_over_each_other_at_half_the_light()
    {
        var drawing = ExposureChart.Overlay(Speed(Trace(closing: 8), Trace(closing: 2)), English)!;
        var before = drawing.Marks.OfType<ChartPath>().Single(path => path.Look == ChartLook.BeforeTrace);
        var after = drawing.Marks.OfType<ChartPath>().Single(path => path.Look == ChartLook.AfterTrace);
        Assert.Equal(before.Points[2], after.Points[2]);
        Assert.True(before.Points[4].X > after.Points[4].X);
        Assert.Equal("As received: 50 % width 11.0 ms, closing 6.40 ms. After service: 50 % width 8.00 ms, closing 1.60 ms.", drawing.Description);
        Assert.Null(ExposureChart.Overlay(Speed(null, null), English));
        Assert.Single(ExposureChart.Overlay(Speed(null, Trace()), English)!.Marks.OfType<ChartPath>());
    }

    [Fact]
    public void The_svg_says_where_its_times_stand_so_that_a_script_can_stretch_it()
    {
        var drawing = ExposureChart.Draw(Trace(), "e", English);
        var svg = XElement.Parse(ChartSvg.Write(drawing, "c1"));
        var span = svg.Attribute("data-span")!.Value.Split(' ').Select(text => double.Parse(text, CultureInfo.InvariantCulture)).ToArray();
        Assert.Equal([-5.0, 14.0], span[2..]);
        var points = svg.Element(Svg + "polyline")!.Attribute("points")!.Value.Split(' ');
        Assert.Equal(6, points.Length);
        Assert.Equal(span[0], double.Parse(points[0].Split(',')[0], CultureInfo.InvariantCulture), 2);
        Assert.Equal(span[1], double.Parse(points[^1].Split(',')[0], CultureInfo.InvariantCulture), 2);
    }

    /// <summary>Ticks worked out by hand: a sixth of the span, up to the next 1, 2 or 5.</summary>
    [Theory]
    [InlineData(24, "en-IE", "-5 0 5 10 15")]
    [InlineData(2.4, "en-IE", "-0.5 0.0 0.5 1.0 1.5")]
    [InlineData(0.24, "en-IE", "-0.05 0.00 0.05 0.10 0.15")]
    [InlineData(2.4, "de-DE", "-0,5 0,0 0,5 1,0 1,5")]
    [InlineData(2.4, "sv-SE", "−0,5 0,0 0,5 1,0 1,5")]
    public void Time_has_round_ticks_in_the_locale_and_the_svg_says_how_they_are_written(double span, string locale, string expected)
    {
        var trace = Trace() with { Milliseconds = [(float)(-span / 4), (float)(span * 3 / 4)], Values = [0, 1] };
        var svg = XElement.Parse(ChartSvg.Write(ExposureChart.Draw(trace, "e", CultureInfo.GetCultureInfo(locale)), "c1"));
        var labels = svg.Elements(Svg + "text").Where(text => text.Attribute("class")!.Value.Split(' ').Contains("tick")).Select(text => text.Value).ToList();
        Assert.Equal(expected, string.Join(' ', labels));
        Assert.Equal(labels.Count, svg.Elements(Svg + "line").Count(line => line.Attribute("class")!.Value == "grid tick"));
        Assert.StartsWith(svg.Attribute("data-minus")!.Value, labels[0], StringComparison.Ordinal);
        if (span < 6) Assert.Contains(svg.Attribute("data-decimal")!.Value, labels[0], StringComparison.Ordinal);
    }
}
