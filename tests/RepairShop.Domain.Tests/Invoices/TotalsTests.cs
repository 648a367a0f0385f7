using RepairShop.Domain.Invoices;
using Xunit;

namespace RepairShop.Domain.Tests.Invoices;

/// <summary>Example totals of EN 16931 from the official example files (ConnectingEurope/eInvoicing-EN16931, ubl/examples and
/// test/testfiles; OpenPEPPOL/peppol-bis-invoice-3, rules/snippets). A line here is one tax category's sum there.</summary>
public sealed class TotalsTests
{
    private static Totals Net(int minorUnits, params PricedLine[] lines) => Totals.Of(lines, taxRegistered: true, pricesIncludeTax: false, minorUnits);

    private static PricedLine Line(decimal amount, decimal percent, string name = "VAT") => new(1, amount, name, percent);

    [Fact]
    public void Ubl_tc434_example1_two_rates()
    {
        var totals = Net(2, Line(183.23m, 6), Line(46.37m, 21));
        Assert.Equal([9.74m, 10.99m], totals.Taxes.Select(tax => tax.Tax));
        Assert.Equal((229.60m, 20.73m, 250.33m), (totals.Net, totals.Tax, totals.Gross));
    }

    [Fact]
    public void Ubl_tc434_example2_rounds_365_125_up_to_365_13_where_rounding_to_even_would_not()
    {
        var totals = Net(2, Line(1460.50m, 25), Line(1.00m, 15), Line(-25.00m, 0, "Exempt"));
        Assert.Equal(365.13m, totals.Taxes.Single(tax => tax.Percent == 25).Tax);
        Assert.Equal(0.15m, totals.Taxes.Single(tax => tax.Percent == 15).Tax);
        Assert.Equal((1436.50m, 365.28m, 1801.78m), (totals.Net, totals.Tax, totals.Gross));
        Assert.NotEqual(365.13m, Math.Round(1460.50m * 25 / 100, 2));
        Assert.Equal(801.78m, totals.Gross - 1000m); // BR-CO-16 with 1000 prepaid
    }

    [Theory]
    [InlineData("example3", 900, 25, 800, 10, 1700, 305, 2005)]
    [InlineData("example4 (DKK)", 1500, 25, 2500, 12, 4000, 675, 4675)]
    [InlineData("Peppol vat-calc snippet", 5000, 25, 2000, 0, 7000, 1250, 8250)]
    public void Two_rates_add_up_as_published(string file, int first, int firstRate, int second, int secondRate, int net, int tax, int gross)
    {
        var totals = Net(2, Line(first, firstRate), Line(second, secondRate, "other"));
        Assert.True((net, tax, gross) == (totals.Net, totals.Tax, totals.Gross), $"{file}: {totals.Net} + {totals.Tax} = {totals.Gross}");
    }

    [Fact]
    public void Ubl_tc434_example8_and_9_and_the_minimal_invoice()
    {
        Assert.Equal((190.87m, 1099.78m), (Net(2, Line(908.91m, 21)).Tax, Net(2, Line(908.91m, 21)).Gross));
        var three = Net(2, new PricedLine(3, 49, "VAT", 21));
        Assert.Equal((147.00m, 30.87m, 177.87m), (three.Net, three.Tax, three.Gross));
        Assert.Equal(500m, Net(2, Line(400, 25)).Gross);
    }

    [Fact]
    public void A_shop_that_is_not_registered_charges_no_tax_whatever_the_lines_say()
    {
        var totals = Totals.Of([Line(3200, 21)], taxRegistered: false, pricesIncludeTax: false, 2); // example7, category O
        Assert.Equal((3200m, 0m, 3200m), (totals.Net, totals.Tax, totals.Gross));
        Assert.Empty(totals.Taxes);
    }

    [Fact]
    public void Prices_with_tax_keep_what_was_agreed_as_the_gross()
    {
        var totals = Totals.Of([Line(99.99m, 21)], taxRegistered: true, pricesIncludeTax: true, 2);
        Assert.Equal(99.99m, totals.Gross);
        Assert.Equal(82.64m, totals.Net); // 99.99 / 1.21 = 82.6363…
        Assert.Equal(17.35m, totals.Tax);
    }

    [Theory]
    [InlineData(0, 1235, 124)] // JPY: 1234.5 → 1235; 10 % of it 123.5 → 124
    [InlineData(2, 1234.5, 123.45)]
    [InlineData(3, 1234.5, 123.45)] // KWD
    public void Each_line_is_rounded_to_the_currencys_own_unit(int minorUnits, decimal net, decimal tax)
    {
        var totals = Net(minorUnits, new PricedLine(2.5m, 493.8m, "VAT", 10));
        Assert.Equal((net, tax), (totals.Net, totals.Tax));
    }

    [Fact]
    public void Three_digits_keep_what_two_would_lose() =>
        Assert.Equal(0.125m, Net(3, new PricedLine(0.5m, 0.25m, "", 0)).Net);

    [Theory]
    [InlineData(0.005, 0.01)]
    [InlineData(-0.005, -0.01)]
    [InlineData(0.015, 0.02)]
    [InlineData(2.675, 2.68)]
    public void Halves_go_away_from_zero(decimal amount, decimal rounded) => Assert.Equal(rounded, Totals.Round(amount, 2));
}
