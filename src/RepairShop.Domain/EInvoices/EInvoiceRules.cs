using RepairShop.Domain.Invoices;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.EInvoices;

/// <summary>The business rules of EN 16931-1:2017 that an invoice written here could break, checked before it is issued.</summary>
/// <remarks>
/// Left out are rules about terms this program never writes (tax representative, payee, periods, attachments, card numbers, reason
/// codes) and those the types of <see cref="EInvoice"/> keep: an amount that can't be missing needs no check that it is there.
/// </remarks>
public static class EInvoiceRules
{
    private const string ShopPage = "in The shop";
    private const string BuyerPage = "on the customer's page";

    private static readonly EInvoiceRule[] Content =
    [
        new("BR-02", e => Filled(e.Number), "The invoice has no number: choose a format under Numbers."),
        new("BR-03", e => e.IssueDate != default, "The invoice has no date of issue."),
        new("BR-04", e => e.TypeCode is "380" or "381" or "386", "The type of invoice is not known."),
        new("BR-05", e => Currency.IsKnown(e.Currency), $"The currency is not an ISO 4217 code: choose one {ShopPage}."),
        new("BR-06", e => Filled(e.Seller.Name), $"Write the shop's name {ShopPage}."),
        new("BR-07", e => Filled(e.Buyer.Name), $"Write the customer's name {BuyerPage}."),
        new("BR-09", e => IsCountry(e.Seller.Address.Country), $"Choose the shop's country {ShopPage}."),
        new("BR-11", e => IsCountry(e.Buyer.Address.Country), $"Write the customer's country {BuyerPage}."),
        new("BR-16", e => e.Lines.Count > 0, "Add at least one line."),
        new("BR-21", e => e.Lines.All(line => Filled(line.Id)) && e.Lines.DistinctBy(line => line.Id).Count() == e.Lines.Count, "Each line needs a number of its own."),
        new("BR-23", e => e.Lines.All(line => Filled(line.UnitCode)), "Each line needs a unit."),
        new("BR-25", e => e.Lines.All(line => Filled(line.Name)), "Each line needs words that say what it is."),
        new("BR-27", e => e.Lines.All(line => line.Price >= 0), "A price can't be below zero: give a discount instead."),
        new("BR-32", e => e.Changes.All(change => change.Amount >= 0 || Filled(change.Tax?.Code)), "Each discount on the whole invoice needs a tax rate."),
        new("BR-33", e => e.Changes.All(change => change.Amount >= 0 || Filled(change.Reason)), "Say what each discount is for."),
        new("BR-37", e => e.Changes.All(change => change.Amount < 0 || Filled(change.Tax?.Code)), "Each charge on the whole invoice needs a tax rate."),
        new("BR-38", e => e.Changes.All(change => change.Amount < 0 || Filled(change.Reason)), "Say what each charge is for."),
        new("BR-42", e => e.Lines.All(line => line.Change is not { Amount: < 0 } change || Filled(change.Reason)), "Say what each line's discount is for."),
        new("BR-44", e => e.Lines.All(line => line.Change is not { Amount: >= 0 } change || Filled(change.Reason)), "Say what each line's charge is for."),
        new("BR-47", e => e.Taxes.All(tax => Filled(tax.Tax.Code)), "Each tax rate needs a category."),
        new("BR-48", e => e.Taxes.All(tax => tax.Tax.Code == "O" || tax.Tax.Percent is not null), "Each tax category but “outside the scope” needs a rate."),
        new("BR-49", e => !Filled(e.Iban) || Filled(e.MeansCode), "Say how the invoice is paid."),
        new("BR-50", e => !Filled(e.MeansCode) || Filled(e.Iban), $"Write the shop's IBAN {ShopPage}."),
        new("BR-55", e => e.Preceding.All(paper => Filled(paper.Number)), "The invoice this one refers to has no number."),
        new("BR-61", e => e.MeansCode is not ("30" or "58") || Filled(e.Iban), $"Write the shop's IBAN {ShopPage}."),
        new("BR-CO-04", e => e.Lines.All(line => Filled(line.Tax.Code)), "Each line needs a tax rate."),
        new("BR-CO-09", e => HasPrefix(e.Seller.VatId) && HasPrefix(e.Buyer.VatId), "A VAT number begins with the two letters of its country: fill in the country, or write the number with its letters."),
        new("BR-CO-25", e => e.TypeCode == "381" || e.Sums.Due <= 0 || e.DueDate is not null || Filled(e.Terms), "Say when the invoice is due: set the days under Prices and tax."),
        new("BR-CO-21", e => e.Changes.All(change => change.Amount >= 0 || Filled(change.Reason)), "Say what each discount is for."),
        new("BR-CO-22", e => e.Changes.All(change => change.Amount < 0 || Filled(change.Reason)), "Say what each charge is for."),
        new("BR-CO-23", e => e.Lines.All(line => line.Change is not { Amount: < 0 } change || Filled(change.Reason)), "Say what each line's discount is for."),
        new("BR-CO-24", e => e.Lines.All(line => line.Change is not { Amount: >= 0 } change || Filled(change.Reason)), "Say what each line's charge is for."),
        new("BR-CO-26", e => Filled(e.Seller.VatId) || Filled(e.Seller.RegistrationId), "Write the shop's tax number or registration number under Prices and tax."),
    ];

    private static readonly EInvoiceRule[] Figures =
    [
        new("BR-CO-10", e => e.Sums.Lines == e.Lines.Sum(line => line.Amount), "The lines do not add up."),
        new("BR-CO-11", e => e.Sums.Allowances == -e.Changes.Where(change => change.Amount < 0).Sum(change => change.Amount), "The discounts do not add up."),
        new("BR-CO-12", e => e.Sums.Charges == e.Changes.Where(change => change.Amount > 0).Sum(change => change.Amount), "The charges do not add up."),
        new("BR-CO-13", e => e.Sums.Net == e.Sums.Lines - e.Sums.Allowances + e.Sums.Charges, "The total without tax is not the lines with discounts and charges."),
        new("BR-CO-14", e => e.Sums.Tax == e.Taxes.Sum(tax => tax.Amount), "The tax is not the sum of its rates."),
        new("BR-CO-15", e => e.Sums.Gross == e.Sums.Net + e.Sums.Tax, "The total is not net and tax together."),
        new("BR-CO-16", e => e.Sums.Due == e.Sums.Gross - e.Sums.Paid + e.Sums.Rounding, "The amount due is not the total less what was paid, with rounding."),
        new("BR-CO-17", e => e.Taxes.All(tax => IsTaxOfBase(tax, e.Currency)), "The tax of a rate is not its base times the rate: choose rounding per rate in the tax profile."),
        new("BR-CO-18", e => e.Taxes.Count > 0, "The invoice has no tax rate, not even one of nothing."),
        Decimals("BR-DEC-01", e => Discounts(e.Changes).Select(change => change.Amount)),
        Decimals("BR-DEC-02", e => Discounts(e.Changes).Select(Base)),
        Decimals("BR-DEC-05", e => Charges(e.Changes).Select(change => change.Amount)),
        Decimals("BR-DEC-06", e => Charges(e.Changes).Select(Base)),
        Decimals("BR-DEC-09", e => [e.Sums.Lines]),
        Decimals("BR-DEC-10", e => [e.Sums.Allowances]),
        Decimals("BR-DEC-11", e => [e.Sums.Charges]),
        Decimals("BR-DEC-12", e => [e.Sums.Net]),
        Decimals("BR-DEC-13", e => [e.Sums.Tax]),
        Decimals("BR-DEC-14", e => [e.Sums.Gross]),
        Decimals("BR-DEC-16", e => [e.Sums.Paid]),
        Decimals("BR-DEC-17", e => [e.Sums.Rounding]),
        Decimals("BR-DEC-18", e => [e.Sums.Due]),
        Decimals("BR-DEC-19", e => e.Taxes.Select(tax => tax.Base)),
        Decimals("BR-DEC-20", e => e.Taxes.Select(tax => tax.Amount)),
        Decimals("BR-DEC-23", e => e.Lines.Select(line => line.Amount)),
        Decimals("BR-DEC-24", e => Discounts(OfLines(e)).Select(change => change.Amount)),
        Decimals("BR-DEC-25", e => Discounts(OfLines(e)).Select(Base)),
        Decimals("BR-DEC-27", e => Charges(OfLines(e)).Select(change => change.Amount)),
        Decimals("BR-DEC-28", e => Charges(OfLines(e)).Select(Base)),
    ];

    private static readonly EInvoiceRule[] All = [.. Content, .. Figures, .. EInvoiceTaxRules.All];

    /// <summary>Every rule checked, in the order of checking.</summary>
    public static IReadOnlyList<string> Codes { get; } = [.. All.Select(rule => rule.Code)];

    /// <summary>The rules that do not hold; none when the invoice may be written.</summary>
    public static IReadOnlyList<EInvoiceFault> Check(EInvoice invoice) =>
        [.. All.Where(rule => !rule.Holds(invoice)).Select(rule => new EInvoiceFault(rule.Code, rule.Remedy))];

    internal static bool Filled(string? text) => !string.IsNullOrWhiteSpace(text);

    private static EInvoiceRule Decimals(string code, Func<EInvoice, IEnumerable<decimal>> amounts) => new(
        code, e => amounts(e).All(amount => Totals.Round(amount, 2) == amount),
        "An electronic invoice has two decimals at most and this currency has more: issue it on paper only.");

    /// <summary>Within one unit of the currency: with prices that hold the tax, what is left after taking out the rounded net may be
    /// one away, and a currency without decimals rounds to its own unit. The published check allows 1.00 either way.</summary>
    internal static bool IsTaxOfBase(ETax tax, string currency) =>
        Math.Abs(tax.Amount - Totals.Round(tax.Base * (tax.Tax.Percent ?? 0) / 100, 2)) <= Math.Max(0.01m, Currency.IsKnown(currency) ? Currency.SmallestAmount(currency) : 0);

    private static IEnumerable<EChange> OfLines(EInvoice e) => e.Lines.Select(line => line.Change).OfType<EChange>();

    private static IEnumerable<EChange> Discounts(IEnumerable<EChange> changes) => changes.Where(change => change.Amount < 0);

    private static IEnumerable<EChange> Charges(IEnumerable<EChange> changes) => changes.Where(change => change.Amount >= 0);

    private static decimal Base(EChange change) => change.Percent is null ? 0 : change.Base;

    private static bool IsCountry(string code) => code.Length == 2 && code.All(char.IsAsciiLetterUpper);

    private static bool HasPrefix(string vatId) => vatId.Length == 0 || (vatId.Length > 2 && IsCountry(vatId[..2]));
}
