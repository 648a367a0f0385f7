using RepairShop.Documents.Charts;

namespace RepairShop.Documents.Tests.Charts;

public sealed class BarsChartTests
{
    [Fact]
    public void Bars_are_as_long_as_their_values_and_the_figures_stand_at_their_ends()
    {
        var chart = BarsChart.Draw("Hours", ["worked", "sold"], [new("October", [(4, "4 h"), (1, "1 h")]), new("November", [(2, "2 h"), (null, "")])])!;
        var bars = chart.Marks.OfType<ChartRect>().ToList();
        Assert.Equal(3, bars.Count);
        Assert.Equal(4, bars[0].Width / bars[1].Width, 6);
        Assert.Equal(2, bars[0].Width / bars[2].Width, 6);
        Assert.Equal(["October", "4 h worked", "1 h sold", "November", "2 h"], chart.Marks.OfType<ChartText>().Select(text => text.Text));
        Assert.All(chart.Marks.OfType<ChartRect>(), bar => Assert.True(bar.X + bar.Width <= chart.Width));
        Assert.Equal("October: 4 h worked, 1 h sold. November: 2 h worked, none sold.", chart.Description);
    }

    [Fact]
    public void A_loss_goes_to_the_left_of_the_zero_line()
    {
        var chart = BarsChart.Draw("Margin", ["margin"], [new("One", [(-5, "−5")]), new("Two", [(5, "5")])])!;
        var zero = Assert.Single(chart.Marks.OfType<ChartLine>()).X1;
        var bars = chart.Marks.OfType<ChartRect>().ToList();
        Assert.Equal((zero, zero), (bars[0].X + bars[0].Width, bars[1].X));
    }

    [Fact]
    public void Nothing_but_zeros_is_no_chart() => Assert.Null(BarsChart.Draw("Margin", ["margin"], [new("One", [(0, "0")])]));
}
