using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Shop;
using Xunit;

namespace RepairShop.Domain.Tests.Invoices;

public sealed class InvoiceDraftingTests
{
    [Theory]
    [InlineData(0, LabourRounding.UpToFifteenMinutes, 0)]
    [InlineData(1, LabourRounding.UpToFifteenMinutes, 0.25)]
    [InlineData(15, LabourRounding.UpToFifteenMinutes, 0.25)]
    [InlineData(16, LabourRounding.UpToFifteenMinutes, 0.5)]
    [InlineData(61, LabourRounding.UpToSixMinutes, 1.1)]
    [InlineData(60, LabourRounding.UpToSixMinutes, 1)]
    [InlineData(100, LabourRounding.None, 1.6667)]
    public void The_whole_repairs_minutes_are_rounded_once(int minutes, LabourRounding rounding, decimal hours) =>
        Assert.Equal(hours, InvoiceDrafting.Hours(minutes, rounding));

    private static Estimate Offer() => new()
    {
        Currency = "EUR",
        Lines =
        [
            new EstimateLine { Position = 1, Kind = LineKind.Labour, Text = "Clean shutter", LowQuantity = 1, HighQuantity = 3, UnitPrice = 60 },
            new EstimateLine { Position = 2, Kind = LineKind.Labour, Text = "Adjust", LowQuantity = 0.5m, HighQuantity = 1, UnitPrice = 60 },
            new EstimateLine { Position = 3, Kind = LineKind.Part, Text = "Spring", LowQuantity = 1, HighQuantity = 1, UnitPrice = 12 },
        ],
    };

    [Theory]
    [InlineData(0, 1, 0.5)] // no hours in the book: the low figure, which can always be justified
    [InlineData(1, 1, 0.5)] // less than offered: the offer's low
    [InlineData(2.75, 2, 0.75)] // half of the range
    [InlineData(9, 3, 1)] // more than offered: the offer's high
    public void As_estimated_takes_the_hours_worked_inside_the_offered_range(decimal worked, decimal first, decimal second)
    {
        var lines = InvoiceDrafting.AsEstimated(Offer(), worked);
        Assert.Equal([first, second, 1m], lines.Select(line => line.Quantity));
        Assert.Equal(["Clean shutter", "Adjust", "Spring"], lines.Select(line => line.Text));
    }

    private static readonly ShopSettings Shop = new() { Currency = "EUR", LabourRate = 60, MinimumCharge = 45, TaxRegistered = true };
    private static readonly TaxRate Standard = new() { Name = "Standard", Percent = 21 };

    [Fact]
    public void As_worked_is_hours_times_rate_and_the_parts_used()
    {
        var part = new PartUse { Text = "Spring", Quantity = 2, Unit = "pcs", UnitPrice = 12, TaxName = "Standard", TaxPercent = 21 };
        var lines = InvoiceDrafting.AsWorked(1.25m, Shop, Standard, [part]);
        Assert.Equal([("Labour", 1.25m, 60m), ("Spring", 2m, 12m)], lines.Select(line => (line.Text, line.Quantity, line.UnitPrice)));
    }

    [Theory]
    [InlineData(0.5, 1, 45)] // 30.00 would be below the minimum charge
    [InlineData(0.75, 0.75, 60)] // 45.00 just reaches it
    public void Labour_comes_to_the_minimum_charge_at_least(decimal hours, decimal quantity, decimal price)
    {
        var line = Assert.Single(InvoiceDrafting.AsWorked(hours, Shop, Standard, []));
        Assert.Equal((quantity, price), (line.Quantity, line.UnitPrice));
    }

    [Fact]
    public void Parts_alone_cost_no_minimum_charge() =>
        Assert.Equal("Cap", Assert.Single(InvoiceDrafting.AsWorked(0, Shop, Standard, [new PartUse { Text = "Cap", Quantity = 1 }])).Text);

    [Fact]
    public void A_shop_that_is_not_registered_writes_no_tax_on_lines()
    {
        var part = new PartUse { Text = "Spring", Quantity = 1, TaxName = "Standard", TaxPercent = 21 };
        var lines = InvoiceDrafting.AsWorked(1, new ShopSettings { LabourRate = 60 }, null, [part]);
        Assert.All(lines, line => Assert.Equal(("", 0m), (line.TaxName, line.TaxPercent)));
    }
}
