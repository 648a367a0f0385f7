using static RepairShop.Domain.EInvoices.EInvoiceRules;

namespace RepairShop.Domain.EInvoices;

/// <summary>What EN 16931-1:2017 asks of each VAT category, S, Z, E, AE, G and O, rule by rule.</summary>
internal static class EInvoiceTaxRules
{
    private const string SellerNumber = "Write the shop's tax number under Prices and tax: an invoice of this kind names it.";
    private const string NoVatNumber = "An invoice outside the scope of tax names no VAT number.";
    private const string Alone = "What is outside the scope of tax can't stand beside taxed lines: write two invoices.";
    private const string RateOfNothing = "A line without tax has the rate 0.";
    private const string OneBreakdown = "The tax is not summed up once for each category.";
    private const string BaseOfLines = "A rate's base is not the sum of its lines with discounts and charges.";

    /// <summary>Rules 01 to 10 of each category have the same shape; what differs is said here.</summary>
    /// <param name="Code">UNCL5305.</param>
    /// <param name="Word">In a rule's remedy.</param>
    /// <param name="HasTax">S alone is taxed.</param>
    /// <param name="NeedsReason">E, AE, G and O say why there is no tax; S and Z must not.</param>
    private sealed record Category(string Code, string Word, bool HasTax, bool NeedsReason);

    private static readonly Category[] Categories =
    [
        new("S", "taxed", true, false), new("Z", "zero-rated", false, false), new("E", "exempt", false, true),
        new("AE", "reverse charge", false, true), new("G", "export", false, true), new("O", "outside the scope of tax", false, true),
    ];

    public static IReadOnlyList<EInvoiceRule> All { get; } = [.. Categories.SelectMany(Shared), .. OutsideScope()];

    private static IEnumerable<EInvoiceRule> Shared(Category own)
    {
        var code = own.Code;
        yield return new($"BR-{code}-01", e => !IsUsed(e, code) || Breakdowns(e, code), OneBreakdown);
        if (code != "O")
        {
            // 02 for lines, 03 for discounts, 04 for charges: one number answers all three.
            yield return new($"BR-{code}-02", e => !Lines(e, code).Any() || Identified(e, code), Missing(code));
            yield return new($"BR-{code}-03", e => !Changes(e, code).Any(change => change.Amount < 0) || Identified(e, code), Missing(code));
            yield return new($"BR-{code}-04", e => !Changes(e, code).Any(change => change.Amount > 0) || Identified(e, code), Missing(code));
            yield return new($"BR-{code}-05", e => Lines(e, code).All(line => IsRate(own, line.Tax)), own.HasTax ? "A taxed line has a rate above 0." : RateOfNothing);
            yield return new($"BR-{code}-06", e => Changes(e, code).All(change => change.Amount > 0 || IsRate(own, change.Tax!)), own.HasTax ? "A discount on what is taxed has a rate above 0." : RateOfNothing);
            yield return new($"BR-{code}-07", e => Changes(e, code).All(change => change.Amount < 0 || IsRate(own, change.Tax!)), own.HasTax ? "A charge on what is taxed has a rate above 0." : RateOfNothing);
        }
        yield return new($"BR-{code}-08", e => e.Taxes.Where(tax => tax.Tax.Code == code).All(tax => tax.Base == BaseOf(e, tax.Tax)), BaseOfLines);
        if (own.HasTax)
            yield return new($"BR-{code}-09", e => e.Taxes.Where(tax => tax.Tax.Code == code).All(tax => EInvoiceRules.IsTaxOfBase(tax, e.Currency)), "The tax of a rate is not its base times the rate: choose rounding per rate in the tax profile.");
        else
            yield return new($"BR-{code}-09", e => e.Taxes.Where(tax => tax.Tax.Code == code).All(tax => tax.Amount == 0), $"What is {own.Word} carries no tax.");
        yield return new($"BR-{code}-10", e => e.Taxes.Where(tax => tax.Tax.Code == code).All(tax => Filled(tax.Reason) == own.NeedsReason),
            own.NeedsReason ? $"Say in the tax profile or the rate why this is {own.Word}." : $"What is {own.Word} has no reason for not being taxed.");
    }

    private static IEnumerable<EInvoiceRule> OutsideScope()
    {
        yield return new("BR-O-02", e => !Lines(e, "O").Any() || NamesNoVat(e), NoVatNumber);
        yield return new("BR-O-03", e => !Changes(e, "O").Any(change => change.Amount < 0) || NamesNoVat(e), NoVatNumber);
        yield return new("BR-O-04", e => !Changes(e, "O").Any(change => change.Amount > 0) || NamesNoVat(e), NoVatNumber);
        yield return new("BR-O-05", e => Lines(e, "O").All(line => line.Tax.Percent is null), "A line outside the scope of tax has no rate.");
        yield return new("BR-O-06", e => Changes(e, "O").All(change => change.Amount > 0 || change.Tax!.Percent is null), "A discount outside the scope of tax has no rate.");
        yield return new("BR-O-07", e => Changes(e, "O").All(change => change.Amount < 0 || change.Tax!.Percent is null), "A charge outside the scope of tax has no rate.");
        yield return new("BR-O-11", e => !IsUsed(e, "O") || e.Taxes.Count == 1, Alone);
        yield return new("BR-O-12", e => !IsUsed(e, "O") || e.Lines.All(line => line.Tax.Code == "O"), Alone);
        yield return new("BR-O-13", e => !IsUsed(e, "O") || e.Changes.All(change => change.Amount > 0 || change.Tax?.Code == "O"), Alone);
        yield return new("BR-O-14", e => !IsUsed(e, "O") || e.Changes.All(change => change.Amount < 0 || change.Tax?.Code == "O"), Alone);
    }

    private static bool NamesNoVat(EInvoice e) => e.Seller.VatId.Length == 0 && e.Buyer.VatId.Length == 0;

    private static string Missing(string code) => code == "AE"
        ? "Reverse charge names both numbers: write the shop's tax number under Prices and tax, and the customer's on the customer's page."
        : SellerNumber;

    private static bool Identified(EInvoice e, string code) =>
        Filled(e.Seller.VatId) && (code != "AE" || Filled(e.Buyer.VatId) || Filled(e.Buyer.RegistrationId));

    private static IEnumerable<ELine> Lines(EInvoice e, string code) => e.Lines.Where(line => line.Tax.Code == code);

    private static IEnumerable<EChange> Changes(EInvoice e, string code) => e.Changes.Where(change => change.Tax?.Code == code);

    private static bool IsUsed(EInvoice e, string code) => Lines(e, code).Any() || Changes(e, code).Any();

    /// <summary>One for each rate of S; exactly one for every other category.</summary>
    private static bool Breakdowns(EInvoice e, string code)
    {
        var used = Lines(e, code).Select(line => line.Tax).Concat(Changes(e, code).Select(change => change.Tax!)).Distinct().ToList();
        return used.All(tax => e.Taxes.Count(other => other.Tax == tax) == 1) && (code == "S" || e.Taxes.Count(tax => tax.Tax.Code == code) == 1);
    }

    private static bool IsRate(Category own, ECategory tax) => own.HasTax ? tax.Percent > 0 : tax.Percent == 0;

    private static decimal BaseOf(EInvoice e, ECategory tax) =>
        e.Lines.Where(line => line.Tax == tax).Sum(line => line.Amount) + e.Changes.Where(change => change.Tax == tax).Sum(change => change.Amount);
}
