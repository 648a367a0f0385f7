using RepairShop.Domain.EInvoices;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Shop;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>What a draft would still need, as its paper would be issued now. Nothing here stops it; what must stop it is a rule.</summary>
internal static class InvoiceHints
{
    /// <param name="file"></param>
    /// <param name="draft">Not tracked: it is filled in as if it were issued.</param>
    /// <param name="all">Of the repair.</param>
    /// <param name="terms"></param>
    /// <param name="rates">That may be used on the day of the work.</param>
    /// <param name="now"></param>
    public static IReadOnlyList<string> Of(
        RepairFile file, Invoice draft, List<Invoice> all, TaxTerms terms, IReadOnlyList<TaxRate> rates, DateTimeOffset now)
    {
        if (draft.Lines.Count == 0)
            return [];
        var totals = draft.Totals();
        var today = file.Shop.Today(now);
        var preview = Preview(draft, totals, terms, rates, now, today.AddDays(file.Shop.PaymentTermDays), today);
        var deposits = all.Where(other => draft.Lines.Any(line => line.DepositId == other.Id)).Select(other => new DepositFacts(other.Number!, other.IssueDate!.Value)).ToList();
        var facts = InvoiceFactsBuilder.Build(file, preview, totals, new InvoiceRefersTo([], null, deposits, terms.CashAccounting), "");
        return
        [
            .. LegalContent.Missing(facts).Select(item => $"{item.What} ({item.Law})"),
            .. OutOfTime(draft, terms, rates),
            .. file.Shop.EInvoices == EInvoiceUse.Never
                ? Array.Empty<string>()
                : EInvoiceRules.Check(EInvoiceBuilder.Of(facts)).Select(fault => $"For the electronic invoice: {fault.Remedy} ({fault.Code})").Distinct(),
        ];
    }

    private static IEnumerable<string> OutOfTime(Invoice draft, TaxTerms terms, IReadOnlyList<TaxRate> rates) => !terms.ChargesTax
        ? []
        : draft.Lines.Where(line => line.TaxName.Length > 0 && line.DepositId is null && terms.Fixed(line.Kind == Domain.Estimates.LineKind.Labour) is null)
            .Where(line => !rates.Any(rate => rate.Name == line.TaxName && rate.Percent == line.TaxPercent))
            .Select(line => $"The rate {line.TaxName} {line.TaxPercent:0.####} % is not one of the day the work was done: look whether it still applies.").Distinct();

    private static Invoice Preview(Invoice draft, Totals totals, TaxTerms terms, IReadOnlyList<TaxRate> rates, DateTimeOffset now, DateOnly due, DateOnly today) => new()
    {
        Basis = draft.Basis,
        Number = "0",
        IssuedAt = now,
        IssueDate = today,
        SupplyDate = draft.SupplyDate ?? today,
        DueDate = due,
        Currency = draft.Currency,
        TaxRegistered = draft.TaxRegistered,
        PricesIncludeTax = draft.PricesIncludeTax,
        Treatment = draft.Treatment,
        TaxRounding = draft.TaxRounding,
        CashStep = draft.CashStep,
        Lines = draft.Lines,
        Changes = draft.Changes,
        Taxes = DraftTerms.Taxes(totals, terms, rates),
    };
}
