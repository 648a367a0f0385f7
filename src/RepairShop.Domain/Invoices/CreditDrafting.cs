using RepairShop.Domain.Estimates;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Invoices;

/// <summary>What is to be given back; with nothing in it, all that is left.</summary>
/// <param name="Lines">So much of a line's quantity.</param>
/// <param name="Amounts">A sum at a rate, as prices are written; for a reduction that belongs to no line.</param>
public sealed record CreditRequest(IReadOnlyList<CreditedLine> Lines, IReadOnlyList<CreditedAmount> Amounts)
{
    public static readonly CreditRequest Everything = new([], []);

    public bool IsEverything => Lines.Count == 0 && Amounts.Count == 0;
}

public sealed record CreditedLine(Guid LineId, decimal Quantity);

public sealed record CreditedAmount(TaxKey Rate, decimal Amount);

/// <summary>The lines of a credit note. Its amounts are what is given back, positive.</summary>
public static class CreditDrafting
{
    /// <param name="invoice">Issued, with its lines.</param>
    /// <param name="left">Of the invoice before this note.</param>
    /// <param name="request"></param>
    public static Result<List<InvoiceLine>> LinesOf(Invoice invoice, CreditLeft left, CreditRequest request)
    {
        if (request.IsEverything)
            return RestOf(invoice, left);
        var lines = new List<InvoiceLine>();
        foreach (var asked in request.Lines)
        {
            if (invoice.Lines.SingleOrDefault(line => line.Id == asked.LineId && line.DepositId is null) is not { } line)
                return new CreditLineUnknown();
            if (asked.Quantity <= 0 || asked.Quantity > left.Quantities[line.Id])
                return new CreditAboveLine(line.Text, asked.Quantity, left.Quantities[line.Id], line.Unit);
            lines.Add(Part(line, asked.Quantity, invoice.Currency));
        }
        lines.AddRange(SharedChanges(invoice, lines));
        foreach (var asked in request.Amounts)
        {
            if (asked.Amount <= 0)
                return new CreditAmountNotPositive(asked.Amount);
            lines.Add(Sum(invoice, asked.Rate, asked.Amount, "Reduction of the price"));
        }
        return Numbered(lines);
    }

    private static List<InvoiceLine> RestOf(Invoice invoice, CreditLeft left)
    {
        var untouched = left.Total == invoice.Payable && left.Quantities.All(line => invoice.Lines.Single(other => other.Id == line.Key).Quantity == line.Value);
        return Numbered(untouched
            ? [.. invoice.Lines.OrderBy(line => line.Position).Select(line => Part(line, line.Quantity, invoice.Currency))]
            : [.. left.Rates.Where(rate => rate.Net != 0 || rate.Tax != 0)
                .Select(rate => Sum(invoice, rate.Key, CreditLeft.InPrices(rate, invoice.PricesIncludeTax), $"What is left of {invoice.Number}"))]);
    }

    /// <summary>A line's share of what was taken off or added for the whole paper goes back with it: a line of its own, whose
    /// quantity and not its price is below zero (EN 16931 BR-27).</summary>
    private static List<InvoiceLine> SharedChanges(Invoice invoice, List<InvoiceLine> lines)
    {
        var totals = invoice.Totals();
        var digits = Amount.Digits(invoice.Currency);
        var back = Totals.Of([.. lines.Select(line => line.Priced())], [], new TotalsTerms(true, false, digits)).LineAmounts
            .Zip(lines, (amount, line) => (line.Priced().Key, Amount: amount)).ToLookup(line => line.Key, line => line.Amount);
        return [.. totals.Changes.Where(share => share.Base != 0)
            .Select(share => (share.Key, share.Text, Amount: Totals.Round(share.Amount * back[KeyOf(invoice, share.Key, back)].Sum() / share.Base, digits)))
            .Where(share => share.Amount != 0)
            .Select(share => Sum(invoice, share.Key, share.Amount, share.Text))];
    }

    // Where no tax is charged the paper has one rate, whatever its lines say.
    private static TaxKey KeyOf(Invoice invoice, TaxKey key, ILookup<TaxKey, decimal> back) =>
        invoice.TaxRegistered ? key : back.Select(rate => rate.Key).FirstOrDefault();

    private static List<InvoiceLine> Numbered(List<InvoiceLine> lines)
    {
        for (var index = 0; index < lines.Count; index++)
            lines[index].Position = index + 1;
        return lines;
    }

    private static InvoiceLine Part(InvoiceLine line, decimal quantity, string currency) => new()
    {
        Kind = line.Kind,
        Text = line.Text,
        Quantity = quantity,
        Unit = line.Unit,
        UnitPrice = line.UnitPrice,
        TaxName = line.TaxName,
        TaxPercent = line.TaxPercent,
        TaxCategory = line.TaxCategory,
        ChangePercent = line.ChangePercent,
        ChangeAmount = quantity == line.Quantity ? line.ChangeAmount : Totals.Round(line.ChangeAmount * quantity / line.Quantity, Amount.Digits(currency)),
        DepositId = line.DepositId,
        CreditsLineId = line.DepositId is null ? line.Id : null,
    };

    private static InvoiceLine Sum(Invoice invoice, TaxKey rate, decimal amount, string text) => new()
    {
        Kind = LineKind.Other,
        Text = text,
        Quantity = Math.Sign(amount),
        Unit = "pcs",
        UnitPrice = Math.Abs(amount),
        TaxName = invoice.TaxRegistered ? rate.Name : "",
        TaxPercent = rate.Percent,
        TaxCategory = rate.Category,
    };
}
