using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using Xunit;

namespace RepairShop.Domain.Tests.Invoices;

/// <summary>
/// Published check totals to the cent, discounts, charges, payments and rounding included: ConnectingEurope/eInvoicing-EN16931
/// (ubl/examples, test/testfiles) and OpenPEPPOL/peppol-bis-invoice-3 (rules/snippets). A line here is one category's sum there.
/// </summary>
public sealed class PublishedTotalsTests
{
    private static readonly TotalsTerms Terms = new(TaxRegistered: true, PricesIncludeTax: false, MinorUnits: 2);

    private static PricedLine S(decimal amount, decimal percent) => new(1, amount, "VAT", percent, TaxCategory.Standard);

    private static PricedLine E(decimal amount) => new(1, amount, "Exempt", 0, TaxCategory.Exempt);

    private static Totals Of(params PricedLine[] lines) => Totals.Of(lines, [], Terms);

    [Fact]
    public void Ubl_tc434_example1() => Is(Of(S(183.23m, 6), S(46.37m, 21)), 229.60m, 20.73m, 250.33m);

    [Fact]
    public void Ubl_tc434_example2_with_1000_prepaid()
    {
        var totals = Of(S(1460.50m, 25), S(1.00m, 15), new PricedLine(-1, 25.00m, "Exempt", 0, TaxCategory.Exempt));
        Is(totals, 1436.50m, 365.28m, 1801.78m);
        Assert.Equal([365.13m, 0.15m, 0m], totals.Taxes.Select(tax => tax.Tax));
        Assert.Equal(801.78m, totals.Payable - 1000m);
    }

    [Fact]
    public void Ubl_tc434_example3_with_a_charge_of_100_on_the_document()
    {
        // Lines 800 and 800; the charge belongs to the first rate there, so it is a line's charge here.
        var totals = Of(S(800, 25) with { Change = new PriceChange(null, 100) }, S(800, 10));
        Is(totals, 1700, 305, 2005);
        Assert.Equal([225m, 80m], totals.Taxes.Select(tax => tax.Tax));
    }

    [Fact]
    public void Ubl_tc434_example4() => Is(Of(S(1500, 25), S(2500, 12)), 4000, 675, 4675);

    [Fact]
    public void Ubl_tc434_example7_category_O() =>
        Is(Totals.Of([S(3200, 21)], [], Terms with { TaxRegistered = false }), 3200, 0, 3200);

    [Fact]
    public void Ubl_tc434_example8() => Is(Of(S(908.91m, 21)), 908.91m, 190.87m, 1099.78m);

    [Fact]
    public void Ubl_tc434_example9() => Is(Of(new PricedLine(3, 49, "VAT", 21)), 147.00m, 30.87m, 177.87m);

    [Fact]
    public void Invoice_Min_content_with_VAT() => Is(Of(S(400, 25)), 400, 100, 500);

    [Fact]
    public void Peppol_vat_calc_snippet_with_a_charge_of_200_and_an_allowance_of_100()
    {
        var totals = Totals.Of([S(4000, 25), E(2000), S(900, 25) with { Change = new PriceChange(null, 100) }], [], Terms);
        Is(totals, 7000, 1250, 8250);
        Assert.Equal([(5000m, 1250m), (2000m, 0m)], totals.Taxes.Select(tax => (tax.Net, tax.Tax)));
    }

    [Fact]
    public void Peppol_prepaid_snippet_leaves_6125_of_7125_after_1000() => Assert.Equal(6125m, Of(S(5700, 25)).Payable - 1000m);

    [Fact]
    public void Rounding_amount_999_81_becomes_1000_with_0_19_added()
    {
        var totals = Totals.Of([E(999.81m)], [], Terms with { CashStep = 1m });
        Assert.Equal((0.19m, 1000m), (totals.CashRounding, totals.Payable));
    }

    [Fact]
    public void Price_450_less_discount_40_is_410() =>
        Assert.Equal(410m, Assert.Single(Of(S(450, 25) with { Change = new PriceChange(null, -40) }).LineAmounts));

    private static void Is(Totals totals, decimal net, decimal tax, decimal gross) =>
        Assert.Equal((net, tax, gross), (totals.Net, totals.Tax, totals.Gross));
}
