namespace RepairShop.Domain.Invoices;

/// <summary>What the totals of a paper are made from.</summary>
public readonly record struct PricedLine(decimal Quantity, decimal UnitPrice, string TaxName, decimal TaxPercent);

/// <summary>One rate's share of a paper.</summary>
/// <param name="Name"></param>
/// <param name="Percent"></param>
/// <param name="Net">Without tax.</param>
/// <param name="Tax"></param>
public sealed record TaxTotal(string Name, decimal Percent, decimal Net, decimal Tax);

/// <summary>Net, tax per rate and gross of a list of lines.</summary>
/// <remarks>
/// Each line is rounded to the currency's minor unit when it is multiplied out; tax is rounded once per rate, on the rate's
/// sum (EN 16931 BR-CO-17), half away from zero. With prices that include tax the rate's gross is what was agreed, so it
/// stays, and the tax is what is left after taking out the net.
/// </remarks>
public sealed record Totals(IReadOnlyList<decimal> LineAmounts, IReadOnlyList<TaxTotal> Taxes, decimal Net, decimal Tax, decimal Gross)
{
    /// <param name="lines">Quantity times unit price, with or without tax as <paramref name="pricesIncludeTax"/> says.</param>
    /// <param name="taxRegistered">When false, no line carries tax, whatever its rate says.</param>
    /// <param name="pricesIncludeTax">Unit prices hold the tax already.</param>
    /// <param name="minorUnits">Digits after the point of the currency: 2 for EUR, 0 for JPY, 3 for KWD (ISO 4217).</param>
    public static Totals Of(IReadOnlyList<PricedLine> lines, bool taxRegistered, bool pricesIncludeTax, int minorUnits)
    {
        var amounts = lines.Select(line => Round(line.Quantity * line.UnitPrice, minorUnits)).ToList();
        var taxes = lines.Zip(amounts)
            .GroupBy(pair => taxRegistered ? (pair.First.TaxName, pair.First.TaxPercent) : ("", 0m))
            .Select(rate => TaxOf(rate.Key.Item1, rate.Key.Item2, rate.Sum(pair => pair.Second), pricesIncludeTax, minorUnits))
            .OrderByDescending(tax => tax.Percent).ThenBy(tax => tax.Name, StringComparer.Ordinal)
            .ToList();
        var net = taxes.Sum(tax => tax.Net);
        var total = taxes.Sum(tax => tax.Tax);
        return new Totals(amounts, taxRegistered ? taxes : [], net, total, net + total);
    }

    /// <summary>Half away from zero, as EN 16931 and everyday commerce have it; .NET's default would round 365.125 to 365.12.</summary>
    public static decimal Round(decimal amount, int minorUnits) => Math.Round(amount, minorUnits, MidpointRounding.AwayFromZero);

    private static TaxTotal TaxOf(string name, decimal percent, decimal sum, bool includesTax, int minorUnits)
    {
        if (!includesTax)
            return new TaxTotal(name, percent, sum, Round(sum * percent / 100m, minorUnits));
        var net = Round(sum / (1m + percent / 100m), minorUnits);
        return new TaxTotal(name, percent, net, sum - net);
    }
}
