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
                var amount = CreditLeft.InPrices(rate, pricesIncludeTax) - TakenOff(issued, deposit.Id, rate.Key);
                if (amount > 0)
                    lines.Add(Deduction(deposit, rate.Key, amount));
            }
        }
        return lines;
    }

    private static decimal TakenOff(IReadOnlyList<Invoice> issued, Guid deposit, TaxKey rate) => issued.Sum(invoice =>
        (invoice.Kind == InvoiceKind.CreditNote ? -1 : 1) * invoice.Lines
            .Where(line => line.DepositId == deposit && (!invoice.TaxRegistered || line.Priced().Key == rate)).Sum(line => -line.Quantity * line.UnitPrice));

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
