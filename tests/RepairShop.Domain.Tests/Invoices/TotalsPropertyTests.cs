using FsCheck;
using FsCheck.Fluent;
using RepairShop.Domain.EInvoices;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using Xunit;

namespace RepairShop.Domain.Tests.Invoices;

/// <summary>EN 16931-1:2017 BR-CO-10 to 17 for random invoices, held against sums taken here by hand.</summary>
public sealed class TotalsPropertyTests
{
    private static readonly Config Many = Config.QuickThrowOnFailure.WithMaxTest(500);

    private static void For(Func<Invoice, EInvoice, bool> property) =>
        Prop.ForAll(SomeInvoices.Any, invoice => property(invoice, EInvoiceBuilder.Of(Facts(invoice)))).Check(Many);

    private static InvoiceFacts Facts(Invoice invoice) => InvoiceFigures.Fill(
        new InvoiceFacts
        {
            PaperNumber = "I-1",
            IssuedAt = default,
            IssuedBy = "",
            Shop = new ShopFacts { Name = "Shop", AddressLines = [], Country = "IE", TaxNumber = "IE1", Locale = "en-IE", Currency = invoice.Currency, TimeZone = "UTC" },
            RepairNumber = "1",
            Camera = new CameraFacts { Maker = "", Model = "" },
            Customer = new PartyFacts { Name = "Customer", Country = "IE" },
            IssueDate = default,
            SupplyDate = default,
            Currency = invoice.Currency,
            Lines = [],
            Net = 0,
            TaxTotal = 0,
            Total = 0,
            Paid = 0,
            Due = 0,
        },
        invoice, invoice.Totals());

    [Fact]
    public void BR_CO_10_lines_add_up() => For((_, e) => e.Sums.Lines == e.Lines.Sum(line => line.Amount));

    [Fact]
    public void BR_CO_11_and_12_discounts_and_charges_add_up() => For((_, e) =>
        e.Sums.Allowances == e.Changes.Where(change => change.Amount < 0).Sum(change => -change.Amount)
        && e.Sums.Charges == e.Changes.Where(change => change.Amount > 0).Sum(change => change.Amount));

    [Fact]
    public void BR_CO_13_net_is_lines_less_discounts_with_charges() => For((_, e) => e.Sums.Net == e.Sums.Lines - e.Sums.Allowances + e.Sums.Charges);

    [Fact]
    public void BR_CO_14_tax_is_the_sum_of_rates() => For((_, e) => e.Sums.Tax == e.Taxes.Sum(tax => tax.Amount));

    [Fact]
    public void BR_CO_15_total_is_net_and_tax() => For((_, e) => e.Sums.Gross == e.Sums.Net + e.Sums.Tax);

    [Fact]
    public void BR_CO_16_due_is_total_with_rounding_and_a_multiple_of_the_coin() => For((invoice, e) =>
        e.Sums.Due == e.Sums.Gross + e.Sums.Rounding
        && (invoice.CashStep == 0 ? e.Sums.Rounding == 0 : e.Sums.Due % invoice.CashStep == 0 && Math.Abs(e.Sums.Rounding) <= invoice.CashStep / 2));

    [Fact]
    public void BR_CO_17_tax_of_a_rate_is_its_base_times_the_rate_rounded_half_up() => For((invoice, e) =>
    {
        var unit = Domain.Shop.Currency.SmallestAmount(invoice.Currency);
        // Net prices rounded per rate hold it exactly. With tax in the prices the rest after the net may be one unit away; rounding on
        // each line may be half a unit away for each line and for each share of a discount.
        var parts = invoice.Lines.Count + invoice.Changes.Count;
        var slack = invoice.TaxRounding == TaxRounding.PerLine ? unit * parts : invoice.PricesIncludeTax ? unit : 0;
        return e.Taxes.All(tax => Math.Abs(tax.Amount - Totals.Round(tax.Base * (tax.Tax.Percent ?? 0) / 100, Amount.Digits(invoice.Currency))) <= slack);
    });

    [Fact]
    public void With_tax_in_the_prices_the_total_is_what_the_prices_add_up_to() => For((invoice, e) =>
        !invoice.PricesIncludeTax || e.Sums.Gross == invoice.Totals().LineAmounts.Sum() + invoice.Totals().Changes.Sum(change => change.Amount));

    [Fact]
    public void A_discount_of_a_plain_amount_is_spread_over_the_rates_without_a_cent_lost() => For((invoice, _) =>
        invoice.Totals().Changes.Where(change => change.Percent is null).Sum(change => change.Amount)
            == invoice.Changes.Where(change => change.Percent is null).Sum(change => change.Amount));

    [Fact]
    public void Nothing_has_more_digits_than_the_currency() => For((invoice, e) =>
    {
        var digits = Amount.Digits(invoice.Currency);
        return new[] { e.Sums.Net, e.Sums.Tax, e.Sums.Gross, e.Sums.Due }.Concat(e.Lines.Select(line => line.Amount)).Concat(e.Taxes.Select(tax => tax.Base))
            .All(amount => Totals.Round(amount, digits) == amount);
    });

    /// <summary>A float anywhere in the money would lose cents: every number of these types is decimal, int or enum.</summary>
    [Fact]
    public void Money_is_decimal_everywhere()
    {
        var types = typeof(Invoice).Assembly.GetTypes().Where(type => type.Namespace is { } name
            && (name.StartsWith("RepairShop.Domain.Invoices", StringComparison.Ordinal) || name.StartsWith("RepairShop.Domain.EInvoices", StringComparison.Ordinal)
                || name.StartsWith("RepairShop.Domain.Estimates", StringComparison.Ordinal)));
        Assert.DoesNotContain(types.SelectMany(type => type.GetProperties()), property =>
            (Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType) is var kind && (kind == typeof(double) || kind == typeof(float)));
    }
}
