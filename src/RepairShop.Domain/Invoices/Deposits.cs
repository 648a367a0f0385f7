using RepairShop.Domain.Estimates;

namespace RepairShop.Domain.Invoices;

/// <summary>
/// Deposit invoices are taken off the final invoice as lines of quantity −1, rate by rate, so that net, tax and total of the
/// final invoice are what is still to be charged and no tax is charged twice.
/// </summary>
public static class Deposits
{
    /// <summary>What of each deposit is neither given back nor taken off yet, as prices are written.</summary>
    /// <param name="issued">All issued invoices and credit notes of a repair with their lines.</param>
    /// <param name="pricesIncludeTax">How the final invoice's prices are written.</param>
    public static List<InvoiceLine> LinesFor(IReadOnlyList<Invoice> issued, bool pricesIncludeTax)
    {
        var lines = new List<InvoiceLine>();
        foreach (var deposit in issued.Where(invoice => invoice is { Kind: InvoiceKind.Invoice, Basis: InvoiceBasis.Deposit }).OrderBy(invoice => invoice.IssuedAt))
        {
            var left = CreditLeft.Of(deposit, [.. issued.Where(credit => credit.CreditsId == deposit.Id)]);
            foreach (var rate in left.Rates)
            {
                var amount = Totals.Round(CreditLeft.InPrices(rate, pricesIncludeTax) * (1 - ShareTakenOff(issued, deposit.Id, rate)), Amount.Digits(deposit.Currency));
                if (amount > 0)
                    lines.Add(Deduction(deposit, rate.Key, amount));
            }
        }
        return lines;
    }

    /// <summary>The invoice that takes the deposit off and was not taken back; null where there is none.</summary>
    /// <param name="issued">As above.</param>
    /// <param name="deposit">Its id.</param>
    public static string? TakenOffBy(IReadOnlyList<Invoice> issued, Guid deposit)
    {
        bool TakesOff(Invoice invoice) => invoice.Lines.Exists(line => line.DepositId == deposit);
        return issued.FirstOrDefault(invoice => invoice.Kind == InvoiceKind.Invoice && TakesOff(invoice)
            && !issued.Any(credit => credit.CreditsId == invoice.Id && TakesOff(credit)))?.Number;
    }

    /// <summary>How much of what is left at a rate is taken off already, 1 for all of it. Invoices may write their prices with tax or without,
    /// so sums are held against what is left as each of them writes it.</summary>
    private static decimal ShareTakenOff(IReadOnlyList<Invoice> issued, Guid deposit, TaxTotal left) => issued.Sum(invoice =>
    {
        var sum = invoice.Lines.Where(line => line.DepositId == deposit && (!invoice.TaxRegistered || line.Priced().Key == left.Key)).Sum(line => -line.Quantity * line.UnitPrice);
        var whole = CreditLeft.InPrices(left, invoice.PricesIncludeTax);
        return sum == 0 ? 0 : whole == 0 ? 1 : (invoice.Kind == InvoiceKind.CreditNote ? -1 : 1) * sum / whole;
    });

    private static InvoiceLine Deduction(Invoice deposit, TaxKey rate, decimal amount) => new()
    {
        Kind = LineKind.Other,
        Text = $"Deposit, invoice {deposit.Number}",
        Quantity = -1,
        Unit = "pcs",
        UnitPrice = amount,
        TaxName = rate.Name,
        TaxPercent = rate.Percent,
        TaxCategory = rate.Category,
        DepositId = deposit.Id,
    };
}
