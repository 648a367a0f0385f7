using RepairShop.Domain.Results;

namespace RepairShop.Domain.Invoices;

/// <summary>What of an invoice may still be given back: rate by rate, line by line. The sum of its credit notes never goes above it.</summary>
/// <param name="Rates">Net and tax left at each rate; the rates of the invoice in its order.</param>
/// <param name="Quantities">Left of each line that was not a deduction, by the line's id.</param>
/// <param name="CashRounding">What rounding to the smallest coin added and was not given back.</param>
public sealed record CreditLeft(IReadOnlyList<TaxTotal> Rates, IReadOnlyDictionary<Guid, decimal> Quantities, decimal CashRounding)
{
    /// <summary>With tax.</summary>
    public decimal Total => Rates.Sum(rate => rate.Net + rate.Tax) + CashRounding;

    public bool IsNothing => Rates.All(rate => rate.Net == 0 && rate.Tax == 0) && CashRounding == 0;

    /// <param name="invoice">Issued, with its lines and taxes.</param>
    /// <param name="credits">Its issued credit notes, with theirs.</param>
    public static CreditLeft Of(Invoice invoice, IReadOnlyList<Invoice> credits)
    {
        var given = credits.SelectMany(credit => RatesOf(credit)).ToLookup(rate => rate.Key);
        var back = credits.SelectMany(credit => credit.Lines).Where(line => line.CreditsLineId is not null).ToLookup(line => line.CreditsLineId!.Value, line => line.Quantity);
        return new CreditLeft(
            [.. RatesOf(invoice).Select(rate => rate with
            {
                Net = rate.Net - given[rate.Key].Sum(tax => tax.Net),
                Tax = rate.Tax - given[rate.Key].Sum(tax => tax.Tax),
            })],
            invoice.Lines.Where(line => line.DepositId is null).ToDictionary(line => line.Id, line => line.Quantity - back[line.Id].Sum()),
            invoice.CashRounding - credits.Sum(credit => credit.CashRounding));
    }

    /// <summary>What is left at a rate as prices are written: with tax where they hold it.</summary>
    public static decimal InPrices(TaxTotal rate, bool pricesIncludeTax) => pricesIncludeTax ? rate.Net + rate.Tax : rate.Net;

    /// <summary>
    /// The figures of a credit note in part. Tax is worked out as on the invoice, but never more than is left, and when a rate's
    /// last net goes back its last tax goes with it: two halves of 0.01 are then 0.01 and not 0.02.
    /// </summary>
    /// <param name="note">With its lines.</param>
    /// <returns>The totals, or which rate would be given back twice.</returns>
    public Result<Totals> Limit(Invoice note)
    {
        var raw = note.Totals();
        var limited = new List<TaxTotal>();
        foreach (var rate in RatesOf(note))
        {
            var left = Rates.SingleOrDefault(other => other.Key == rate.Key) ?? rate with { Net = 0, Tax = 0 };
            var (asked, most) = (InPrices(rate, note.PricesIncludeTax), InPrices(left, note.PricesIncludeTax));
            if (asked > most)
                return new CreditAboveRate(rate.Name, rate.Percent, asked, most, note.Currency);
            var net = Math.Min(rate.Net, left.Net);
            limited.Add(asked == most ? left : rate with { Net = net, Tax = note.PricesIncludeTax ? asked - net : Math.Min(rate.Tax, left.Tax) });
        }
        var gross = limited.Sum(rate => rate.Net + rate.Tax);
        return raw with
        {
            Taxes = note.TaxRegistered ? limited : [],
            Net = limited.Sum(rate => rate.Net),
            Tax = limited.Sum(rate => rate.Tax),
            Gross = gross,
            CashRounding = gross == Rates.Sum(rate => rate.Net + rate.Tax) ? CashRounding : 0,
        };
    }

    /// <summary>A shop that is not registered has one rate of nothing.</summary>
    private static IReadOnlyList<TaxTotal> RatesOf(Invoice invoice) =>
        invoice.TaxRegistered ? invoice.TaxTotals() : [new TaxTotal("", 0, invoice.Lines.Count == 0 ? invoice.Net : invoice.Totals().Net, 0)];
}
