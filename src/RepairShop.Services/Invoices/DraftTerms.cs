using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>How a draft is taxed, put on it and read from it.</summary>
internal static class DraftTerms
{
    /// <summary>The draft keeps what was decided when it was begun, whatever has become of the profile since.</summary>
    public static TaxTerms Of(Invoice invoice, TaxTerms profile) =>
        profile with { Treatment = invoice.Treatment, PricesIncludeTax = invoice.PricesIncludeTax, Rounding = invoice.TaxRounding };

    public static void Put(Invoice invoice, TaxTerms terms)
    {
        (invoice.TaxProfileId, invoice.Treatment, invoice.TaxRounding) = (terms.ProfileId, terms.Treatment, terms.Rounding);
        (invoice.TaxRegistered, invoice.PricesIncludeTax) = (terms.IsRegistered, terms.PricesIncludeTax);
    }

    public static IEnumerable<(string Name, decimal Percent, TaxCategory Category)> InUse(Invoice invoice) =>
        invoice.Lines.Where(line => line.DepositId is null).Select(line => (line.TaxName, line.TaxPercent, line.TaxCategory));

    /// <summary>The rows of <c>invoice_taxes</c> that keep what was charged at each rate, and why nothing was.</summary>
    public static List<InvoiceTax> Taxes(Totals totals, TaxTerms terms, IReadOnlyList<TaxRate> rates) => [.. totals.Taxes.Select(tax => new InvoiceTax
    {
        Category = tax.Category,
        Name = tax.Name,
        Percent = tax.Percent,
        Base = tax.Net,
        Tax = tax.Tax,
        Reason = rates.FirstOrDefault(rate => rate.Name == tax.Name && rate.Category == tax.Category && rate.Reason.Length > 0)?.Reason
            ?? terms.ReasonFor(tax.Category) ?? "",
    })];

    public static Result Check(IReadOnlyList<PaperChange> changes)
    {
        for (var row = 0; row < changes.Count; row++)
        {
            if (string.IsNullOrWhiteSpace(changes[row].Text))
                return new ChangeWithoutText(row);
        }
        return Result.Done;
    }
}
