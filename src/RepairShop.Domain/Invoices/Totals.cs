namespace RepairShop.Domain.Invoices;

/// <summary>Net, tax per rate and gross of a list of lines.</summary>
/// <param name="LineAmounts">Each line multiplied out, with its own discount or charge; with or without tax as the prices.</param>
/// <param name="Taxes">One for each category and rate, the highest rate first; empty where no tax is charged.</param>
/// <param name="Net">Without tax (EN 16931 BT-109).</param>
/// <param name="Tax">Sum of <paramref name="Taxes"/> (BT-110).</param>
/// <param name="Gross"><paramref name="Net"/> and <paramref name="Tax"/> together (BT-112).</param>
/// <remarks>
/// Each line is rounded to the currency's minor unit when it is multiplied out, and so is each discount and charge; tax is
/// rounded once per rate, on the rate's sum (EN 16931 BR-CO-17), or on each line where the terms say so, half away from zero.
/// With prices that include tax the rate's gross is what was agreed, so it stays, and the tax is what is left after taking out the net.
/// </remarks>
public sealed record Totals(IReadOnlyList<decimal> LineAmounts, IReadOnlyList<TaxTotal> Taxes, decimal Net, decimal Tax, decimal Gross)
{
    /// <summary>Discounts and charges on the whole paper, spread over its rates.</summary>
    public IReadOnlyList<ChangeShare> Changes { get; init; } = [];

    /// <summary>What rounding to the smallest coin adds (BT-114); below zero when it takes off.</summary>
    public decimal CashRounding { get; init; }

    /// <summary>What is to be paid for this paper (BT-115 where nothing is paid yet).</summary>
    public decimal Payable => Gross + CashRounding;

    /// <param name="lines">Quantity times unit price, with or without tax as <paramref name="pricesIncludeTax"/> says.</param>
    /// <param name="taxRegistered">When false, no line carries tax, whatever its rate says.</param>
    /// <param name="pricesIncludeTax">Unit prices hold the tax already.</param>
    /// <param name="minorUnits">Digits after the point of the currency: 2 for EUR, 0 for JPY, 3 for KWD (ISO 4217).</param>
    public static Totals Of(IReadOnlyList<PricedLine> lines, bool taxRegistered, bool pricesIncludeTax, int minorUnits) =>
        Of(lines, [], new TotalsTerms(taxRegistered, pricesIncludeTax, minorUnits));

    /// <param name="lines"></param>
    /// <param name="changes">Discounts and charges on the whole paper, each worked out on the sum of lines, not on one another.</param>
    /// <param name="terms"></param>
    public static Totals Of(IReadOnlyList<PricedLine> lines, IReadOnlyList<PaperChange> changes, TotalsTerms terms)
    {
        var amounts = lines.Select(line => AmountOf(line, terms.MinorUnits)).ToList();
        var keyed = lines.Zip(amounts, (line, amount) => (Key: terms.TaxRegistered ? line.Key : default, line.IsDeposit, Amount: amount)).ToList();
        var shares = changes.SelectMany(change => ChangeShares.Of(change, keyed, terms.MinorUnits)).ToList();
        var taxes = keyed.Select(line => (line.Key, line.Amount))
            .Concat(shares.Select(share => (share.Key, share.Amount)))
            .GroupBy(part => part.Key, part => part.Amount)
            .Select(rate => TaxOf(rate.Key, [.. rate], terms))
            .OrderByDescending(tax => tax.Percent).ThenBy(tax => tax.Name, StringComparer.Ordinal).ThenBy(tax => tax.Category)
            .ToList();
        return Sum(amounts, taxes, shares, terms);
    }

    /// <summary>Half away from zero, as EN 16931 and everyday commerce have it; .NET's default would round 365.125 to 365.12.</summary>
    public static decimal Round(decimal amount, int minorUnits) => Math.Round(amount, minorUnits, MidpointRounding.AwayFromZero);

    /// <summary>To the nearest multiple of the smallest coin, half away from zero: 12.32 and 12.33 to 12.30 and 12.35 for 0.05.</summary>
    /// <param name="amount"></param>
    /// <param name="step">Above zero; 0 leaves the amount as it is.</param>
    public static decimal RoundToCoin(decimal amount, decimal step) => step <= 0 ? amount : Round(amount / step, 0) * step;

    internal static Totals Sum(IReadOnlyList<decimal> amounts, IReadOnlyList<TaxTotal> taxes, IReadOnlyList<ChangeShare> shares, TotalsTerms terms)
    {
        var net = taxes.Sum(tax => tax.Net);
        var total = taxes.Sum(tax => tax.Tax);
        return new Totals(amounts, terms.TaxRegistered ? taxes : [], net, total, net + total)
        {
            Changes = shares,
            CashRounding = RoundToCoin(net + total, terms.CashStep) - (net + total),
        };
    }

    private static decimal AmountOf(PricedLine line, int minorUnits)
    {
        var amount = Round(line.Quantity * line.UnitPrice, minorUnits);
        return amount + line.Change.On(amount, minorUnits);
    }

    private static TaxTotal TaxOf(TaxKey key, List<decimal> parts, TotalsTerms terms)
    {
        var split = terms.Rounding == TaxRounding.PerLine ? parts.ConvertAll(part => Split(part, key.Percent, terms)) : [Split(parts.Sum(), key.Percent, terms)];
        return new TaxTotal(key.Name ?? "", key.Percent, split.Sum(part => part.Net), split.Sum(part => part.Tax)) { Category = key.Category };
    }

    private static (decimal Net, decimal Tax) Split(decimal sum, decimal percent, TotalsTerms terms)
    {
        if (!terms.PricesIncludeTax)
            return (sum, Round(sum * percent / 100m, terms.MinorUnits));
        var net = Round(sum / (1m + percent / 100m), terms.MinorUnits);
        return (net, sum - net);
    }
}
