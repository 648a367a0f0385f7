using RepairShop.Domain.Invoices;

namespace RepairShop.Domain.Estimates;

/// <summary>What an offer comes to, at the least and at the most.</summary>
public sealed record EstimateTotals(Totals Low, Totals High)
{
    public static EstimateTotals Of(Estimate estimate)
    {
        var digits = Amount.Digits(estimate.Currency);
        return new EstimateTotals(
            Sum(estimate, line => line.LowQuantity, digits),
            Sum(estimate, line => line.HighQuantity, digits));
    }

    /// <summary>The strip-down charge with tax: taxed like the offer's first line, labour before the rest.</summary>
    public static decimal StripDownGross(Estimate estimate) => estimate.StripDownCharge == 0
        ? 0
        : Totals.Of([StripDownLine(estimate)], ChargesTax(estimate), estimate.PricesIncludeTax, Amount.Digits(estimate.Currency)).Gross;

    public static PricedLine StripDownLine(Estimate estimate)
    {
        var like = estimate.Lines.OrderBy(line => line.Kind).ThenBy(line => line.Position).FirstOrDefault();
        return new PricedLine(1, estimate.StripDownCharge, like?.TaxName ?? "", like?.TaxPercent ?? 0, like?.TaxCategory);
    }

    /// <summary>A shop that is not registered for tax writes lines without a rate's name.</summary>
    public static bool ChargesTax(Estimate estimate) => estimate.Lines.Any(line => line.TaxName.Length > 0);

    private static Totals Sum(Estimate estimate, Func<EstimateLine, decimal> quantity, int digits) => Totals.Of(
        [.. estimate.Lines.OrderBy(line => line.Position)
            .Select(line => new PricedLine(quantity(line), line.UnitPrice, line.TaxName, line.TaxPercent, line.TaxCategory))],
        ChargesTax(estimate), estimate.PricesIncludeTax, digits);
}
