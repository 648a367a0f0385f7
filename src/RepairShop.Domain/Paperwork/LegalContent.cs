using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Paperwork;

/// <summary>Something a law asks of an invoice and that is not there.</summary>
/// <param name="Law">As it is cited.</param>
/// <param name="What">What to fill in.</param>
public sealed record MissingContent(string Law, string What);

/// <summary>
/// What the law of the shop's country asks an invoice to say, as far as it depends on what was filled in; the rest is printed always.
/// A model, not advice: check your local rules.
/// </summary>
public static class LegalContent
{
    /// <summary>A New Tax System (Goods and Services Tax) Act 1999 s 29-70 (1) (c) (ii): from 1,000 dollars the buyer is named.</summary>
    public const decimal AustraliaNamesBuyerFrom = 1000m;

    /// <summary>S 29-80 and regulations: no tax invoice is asked for up to 75 dollars without GST, 82.50 with it.</summary>
    public const decimal AustraliaNoTaxInvoiceUpTo = 82.50m;

    /// <summary>Value Added Tax Regulations 1995 (SI 1995/2518) reg. 16A: a simplified invoice up to 250 pounds with VAT.</summary>
    public const decimal UnitedKingdomSimplifiedUpTo = 250m;

    /// <summary>Directive 2006/112/EC art. 220a: simplified up to 100 euros; a member state may go to 400 (art. 238).</summary>
    public const decimal EuSimplifiedUpTo = 100m;

    /// <summary>Whether a tax invoice has to be given in Australia at all.</summary>
    public static bool AustraliaAsksForTaxInvoice(decimal totalWithGst) => totalWithGst > AustraliaNoTaxInvoiceUpTo;

    /// <summary>What to call it: Australian law wants it to be clear that it is a tax invoice (s 29-70 (1) (d)).</summary>
    public static string TitleOf(InvoiceFacts facts)
    {
        var credit = facts.CreditsNumber is not null;
        if (facts.Shop.Country == "AU" && facts.Taxes.Any(tax => tax.Percent > 0))
            return credit ? "Adjustment note" : "Tax invoice";
        return credit ? "Credit note" : facts.IsDeposit ? "Deposit invoice" : "Invoice";
    }

    /// <summary>Only for shops that charge tax or state why they do not; a shop that is not registered writes no VAT invoice.</summary>
    public static IReadOnlyList<MissingContent> Missing(InvoiceFacts facts)
    {
        if (facts.Taxes.Count == 0)
            return [];
        return facts.Shop.Country switch
        {
            "AU" => [.. Australia(facts)],
            "GB" => [.. UnitedKingdom(facts)],
            var country when TaxNumbers.IsInEu(country) => [.. Eu(facts)],
            _ => [],
        };
    }

    private static IEnumerable<MissingContent> Australia(InvoiceFacts facts)
    {
        const string Law = "GST Act s 29-70";
        if (facts.Shop.TaxNumber is null)
            yield return new(Law, "A tax invoice names your ABN: write it under Prices and tax.");
        if (facts.Total >= AustraliaNamesBuyerFrom && facts.Customer.TaxNumber is null && facts.Customer.AddressLines.Count == 0)
            yield return new(Law, "From $1,000 a tax invoice names the buyer or the buyer's ABN: write the ABN or the address on the customer's page, so that there is no doubt who it is.");
    }

    private static IEnumerable<MissingContent> UnitedKingdom(InvoiceFacts facts)
    {
        if (facts.Shop.TaxNumber is null)
            yield return new("VAT Regulations 1995 reg. 14 (1) (d)", "A VAT invoice names your VAT number: write it under Prices and tax.");
        if (facts.Total > UnitedKingdomSimplifiedUpTo && facts.Customer.AddressLines.Count == 0)
            yield return new("VAT Regulations 1995 reg. 14 (1) (e)", "Above £250 a VAT invoice names the customer's address: write it on the customer's page.");
    }

    private static IEnumerable<MissingContent> Eu(InvoiceFacts facts)
    {
        if (facts.Shop.TaxNumber is null)
            yield return new("Directive 2006/112/EC art. 226 (3)", "An invoice names your VAT number: write it under Prices and tax.");
        if (facts.Total > EuSimplifiedUpTo && facts.Customer.AddressLines.Count == 0)
            yield return new("Directive 2006/112/EC art. 226 (5)", "Above €100, or your country's own limit, an invoice names the customer's full address: write it on the customer's page.");
        if (facts.Taxes.Any(tax => tax.Category == TaxCategory.ReverseCharge) && facts.Customer.TaxNumber is null)
            yield return new("Directive 2006/112/EC art. 226 (4)", "Reverse charge names the customer's VAT number: write it on the customer's page.");
    }
}
