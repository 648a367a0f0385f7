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
    /// <summary>As the book keeps quantities.</summary>
    private const int QuantityDigits = 4;

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
            var together = request.Lines.Where(one => one.LineId == line.Id).Sum(one => one.Quantity);
            if (asked.Quantity <= 0 || together > left.Quantities[line.Id])
                return new CreditAboveLine(line.Text, together, left.Quantities[line.Id], line.Unit);
            if (Totals.Round(asked.Quantity, QuantityDigits) != asked.Quantity)
                return new CreditQuantityTooFine(line.Text, asked.Quantity);
            lines.Add(Part(line, asked.Quantity, invoice.Currency));
        }
        lines.AddRange(SharedChanges(invoice, lines));
        foreach (var asked in request.Amounts)
        {
            if (asked.Amount <= 0)
                return new CreditAmountNotPositive(asked.Amount);
            if (Totals.Round(asked.Amount, Amount.Digits(invoice.Currency)) != asked.Amount)
                return new CreditAmountTooFine(asked.Amount, invoice.Currency);
            lines.Add(Sum(invoice, asked.Rate, asked.Amount, "Reduction of the price"));
        }
        // Who takes the last of an invoice back takes its deposits back too: the next invoice has to take them off again.
        return DepositsOf(invoice).Count > 0 && AreAllThatIsLeft(lines, invoice, left) ? RestOf(invoice, left) : Numbered(lines);
    }

    private static List<InvoiceLine> DepositsOf(Invoice invoice) => [.. invoice.Lines.Where(line => line.DepositId is not null).OrderBy(line => line.Position)];

    private static bool AreAllThatIsLeft(List<InvoiceLine> lines, Invoice invoice, CreditLeft left)
    {
        var note = new Invoice
        {
            Currency = invoice.Currency,
            TaxRegistered = invoice.TaxRegistered,
            PricesIncludeTax = invoice.PricesIncludeTax,
            TaxRounding = invoice.TaxRounding,
            Lines = Numbered(lines),
        };
        return left.Limit(note) is { IsDone: true, Value: var totals } && totals.Gross == left.Rates.Sum(rate => rate.Net + rate.Tax);
    }

    private static List<InvoiceLine> RestOf(Invoice invoice, CreditLeft left)
    {
        var untouched = left.Total == invoice.Payable && left.Quantities.All(line => invoice.Lines.Single(other => other.Id == line.Key).Quantity == line.Value);
        if (untouched)
            return Numbered([.. invoice.Lines.OrderBy(line => line.Position).Select(line => Part(line, line.Quantity, invoice.Currency))]);
        var deposits = DepositsOf(invoice);
        var takenOff = deposits.ToLookup(line => invoice.TaxRegistered ? line.Priced().Key : new TaxKey(), line => -line.Quantity * line.UnitPrice);
        return Numbered(
        [
            .. left.Rates
                .Select(rate => (Rate: rate, TakenOff: takenOff[invoice.TaxRegistered ? rate.Key : new TaxKey()].Sum()))
                .Where(one => one.Rate.Net != 0 || one.Rate.Tax != 0 || one.TakenOff != 0)
                .Select(one => Sum(
                    invoice, one.Rate.Key, CreditLeft.InPrices(one.Rate, invoice.PricesIncludeTax) + one.TakenOff,
                    $"What is left of {invoice.Number}{(one.TakenOff == 0 ? "" : ", before its deposit")}")),
            .. deposits.Select(line => Part(line, line.Quantity, invoice.Currency)),
        ]);
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
