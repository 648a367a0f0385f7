using RepairShop.Measurement.Tools;
using RepairShop.Web.Pages.Tools;
using Xunit;

namespace RepairShop.Web.Tests.Tools;

public class SpannerDrawingTests
{
    [Theory]
    [InlineData(31.5, 26, 12, "1:1")]
    [InlineData(60, 50, 30, "1:1")]
    [InlineData(31.5, 26, 90, "1:1")]
    [InlineData(130, 120, 40, "1:2")]
    [InlineData(60, 50, 240, "1:2")]
    [InlineData(300, 280, 100, "1:5")]
    public void It_is_full_size_wherever_that_fits_on_the_paper(double outer, double inner, double depth, string scale)
    {
        var drawing = new SpannerDrawing(new RingSpanner(outer, inner, depth, (outer + inner) / 2, 1.8, 1), null, LengthUnit.Millimetre);
        Assert.Equal(scale, drawing.ScaleWords);
        Assert.True(drawing.Width <= SpannerDrawing.PaperWidth, $"{drawing.Width} mm is wider than the paper.");
        Assert.InRange(drawing.Height, 1, 240);
        Assert.All(drawing.Dimensions, line =>
        {
            Assert.InRange(Math.Min(line.X1, line.X2), 0, drawing.Width);
            Assert.InRange(Math.Max(line.X1, line.X2), 0, drawing.Width);
            Assert.InRange(Math.Max(line.Y1, line.Y2), 0, drawing.Height);
        });
    }

    [Fact]
    public void A_dimension_line_is_as_long_as_what_it_measures()
    {
        var drawing = new SpannerDrawing(new RingSpanner(31.5, 26, 12, 28.5, 1.8, 1, 23.5), null, LengthUnit.Millimetre);
        Assert.Equal([1, 1.8, 12, 23.5, 26, 28.5, 31.5], drawing.Dimensions.Select(line => Math.Round(line.Length, 9)).Order());
    }

    /// <summary>Pythagoras: at 11.75 across, a circle of 31.5 reaches √(15.75² − 11.75²) = 10.488 to either side.</summary>
    [Fact]
    public void Cut_away_sides_end_where_they_meet_the_tube()
    {
        var drawing = new SpannerDrawing(new RingSpanner(31.5, 22, 12, 28.5, 1.8, 1, 23.5), null, LengthUnit.Millimetre);
        Assert.Equal(10.488, drawing.HalfChord(31.5)!.Value, 5e-4);
        Assert.Null(drawing.HalfChord(22));
    }
}
