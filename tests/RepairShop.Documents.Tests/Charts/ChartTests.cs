using System.Globalization;
using System.Xml.Linq;
using RepairShop.Documents.Charts;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.Charts;

public class ChartTests
{
    private static readonly CultureInfo English = CultureInfo.GetCultureInfo("en-IE");
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    private static XElement SvgOf(ChartDrawing drawing) => XElement.Parse(ChartSvg.Write(drawing, "c1"));

    private static ShutterRowFacts Row(string marked, double? before, double? after, double u = 0.05, double? closing = null) => new()
    {
        MarkedSpeed = marked,
        ReferenceSeconds = 1,
        LowerLimitStops = -0.3,
        UpperLimitStops = 0.3,
        AsReceived = Figures(before, u, closing),
        AfterService = Figures(after, u, closing / 2),
    };

    private static SpeedFiguresFacts? Figures(double? stops, double u, double? closing) =>
        stops is { } error ? new() { Count = 5, MeanSeconds = 1, ErrorStops = error, UncertaintyStops = u, ClosingMilliseconds = closing } : null;

    [Fact]
    public void Svg_is_well_formed_named_and_carries_no_style_of_its_own()
    {
        var svg = SvgOf(ErrorInStopsChart.Draw(Sample.ServiceRecord.ShutterRows, English));
        Assert.Equal("img", svg.Attribute("role")?.Value);
        Assert.Equal("c1-title c1-desc", svg.Attribute("aria-labelledby")?.Value);
        Assert.Equal("Error in stops at each marked speed", svg.Element(Svg + "title")?.Value);
        Assert.NotEmpty(svg.Element(Svg + "desc")!.Value);
        string[] allowed = ["class", "viewBox", "role", "aria-labelledby", "id", "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "width", "height", "xmlns"];
        Assert.All(svg.DescendantsAndSelf().Attributes(), attribute => Assert.Contains(attribute.Name.LocalName, allowed));
    }

    [Fact]
    public void A_hostile_speed_stays_text()
    {
        var svg = SvgOf(ErrorInStopsChart.Draw([Row("<script>&\"'", 0.1, null)], English));
        Assert.Contains(svg.Elements(Svg + "text"), text => text.Value == "<script>&\"'");
        Assert.Empty(svg.Descendants(Svg + "script"));
    }

    [Fact]
    public void Every_figure_of_the_table_is_in_the_description()
    {
        var description = ErrorInStopsChart.Draw(Sample.ServiceRecord.ShutterRows, English).Description;
        foreach (var row in Sample.ServiceRecord.ShutterRows)
        {
            var (before, after) = (row.AsReceived!, row.AfterService!);
            string Signed(double stops) => (stops < 0 ? "−" : "+") + Math.Abs(Math.Round(stops, 2, MidpointRounding.AwayFromZero)).ToString("F2", English);
            Assert.Contains($"{row.MarkedSpeed}: as received {Signed(before.ErrorStops)} ± {before.UncertaintyStops!.Value.ToString("F2", English)}, after service {Signed(after.ErrorStops)}", description);
        }
    }

    [Fact]
    public void Marks_stand_where_their_figures_put_them()
    {
        var drawing = ErrorInStopsChart.Draw([Row("1 s", 0.25, -0.25), Row("½", 0, 0)], English);
        var zero = drawing.Marks.OfType<ChartLine>().Single(line => line.Look == ChartLook.Zero).Y1;
        var before = drawing.Marks.OfType<ChartDot>().Where(dot => dot.Look == ChartLook.Before).ToList();
        var after = drawing.Marks.OfType<ChartDot>().Where(dot => dot.Look == ChartLook.After).ToList();
        Assert.Equal(zero, before[1].Y, 6);
        Assert.Equal(zero, after[1].Y, 6);
        Assert.True(before[0].Y < zero, "longer is up");
        Assert.Equal(zero - before[0].Y, after[0].Y - zero, 6);
        var bar = drawing.Marks.OfType<ChartLine>().First(line => line.Look == ChartLook.Before && line.X1 == line.X2);
        Assert.Equal((zero - before[0].Y) * 0.05 / 0.25, before[0].Y - Math.Min(bar.Y1, bar.Y2), 6);
        var band = drawing.Marks.OfType<ChartRect>().First();
        Assert.Equal((zero - before[0].Y) * 0.6 / 0.25, band.Height, 6);
        Assert.Equal(zero, band.Y + band.Height / 2, 6);
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.9)]
    [InlineData(3.7)]
    [InlineData(-12)]
    public void Nothing_falls_outside_the_picture(double stops)
    {
        var drawing = ErrorInStopsChart.Draw([Row("1 s", stops, -stops, 0.4), Row("1/500", 0.02, null)], English);
        foreach (var mark in drawing.Marks)
            foreach (var y in mark switch
            {
                ChartDot dot => [dot.Y - dot.Radius, dot.Y + dot.Radius],
                ChartLine line => [line.Y1, line.Y2],
                ChartRect rect => [rect.Y, rect.Y + rect.Height],
                ChartText text => [text.Y],
                _ => Array.Empty<double>(),
            })
                Assert.InRange(y, 0, drawing.Height);
        Assert.InRange(drawing.Marks.OfType<ChartText>().Count(text => text.Anchor == ChartAnchor.End), 3, 16);
    }

    [Fact]
    public void Names_of_series_that_end_together_are_moved_apart()
    {
        var names = ErrorInStopsChart.Draw([Row("1 s", 0.1, 0.1)], English).Marks.OfType<ChartText>().Where(text => text.Text.Contains("received") || text.Text.Contains("service")).ToList();
        Assert.Equal(2, names.Count);
        Assert.True(Math.Abs(names[0].Y - names[1].Y) >= 11);
    }

    [Fact]
    public void Figures_follow_the_locale() =>
        Assert.Contains("as received +0,25 ± 0,05", ErrorInStopsChart.Draw([Row("1 s", 0.25, null)], CultureInfo.GetCultureInfo("de-DE")).Description);

    [Fact]
    public void Without_a_closing_time_there_is_no_closing_chart() => Assert.Null(ClosingTimeChart.Draw([Row("1 s", 0.1, 0.1)], English));

    [Fact]
    public void The_closing_chart_shows_both_times_and_says_them()
    {
        var drawing = ClosingTimeChart.Draw([Row("1 s", 0.1, 0.1, closing: 9.8), Row("½", 0.1, 0.1)], English)!;
        Assert.Contains("1 s: as received 9.8, after service 4.9,", drawing.Description);
        Assert.DoesNotContain("½", drawing.Description);
        var before = drawing.Marks.OfType<ChartDot>().Single(dot => dot.Look == ChartLook.Before);
        var after = drawing.Marks.OfType<ChartDot>().Single(dot => dot.Look == ChartLook.After);
        var zero = drawing.Marks.OfType<ChartLine>().Single(line => line.Look == ChartLook.Zero).X1;
        Assert.Equal((before.X - zero) / 2, after.X - zero, 6);
        Assert.Equal("img", SvgOf(drawing).Attribute("role")?.Value);
    }

    [Fact]
    public void An_empty_list_of_speeds_draws_an_empty_chart() => Assert.NotEmpty(ErrorInStopsChart.Draw([], English).Marks);
}
