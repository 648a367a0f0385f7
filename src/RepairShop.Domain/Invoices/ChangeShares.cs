namespace RepairShop.Domain.Invoices;

/// <summary>Spreads a discount or charge on the whole paper over its rates, in proportion to what was sold at each: a discount on
/// a bill with two rates lowers both bases. Deposits taken off are left alone, they were agreed earlier.</summary>
internal static class ChangeShares
{
    /// <param name="change"></param>
    /// <param name="lines">Of the paper, with the key their tax goes under.</param>
    /// <param name="minorUnits"></param>
    /// <returns>One for each rate, adding up to the change exactly.</returns>
    public static IEnumerable<ChangeShare> Of(PaperChange change, IReadOnlyList<(TaxKey Key, bool IsDeposit, decimal Amount)> lines, int minorUnits)
    {
        var rates = lines.Where(line => !line.IsDeposit).GroupBy(line => line.Key).Select(rate => (rate.Key, Sum: rate.Sum(line => line.Amount)))
            .OrderByDescending(rate => rate.Sum).ThenByDescending(rate => rate.Key.Percent).ThenBy(rate => rate.Key.Name, StringComparer.Ordinal).ToList();
        if (rates.Count == 0 || change.Change.IsNone)
            return [];
        var plain = Totals.Round(change.Change.Amount, minorUnits);
        var shares = rates.ConvertAll(rate => change.Change.Percent is not null
            ? change.Change.On(rate.Sum, minorUnits)
            : Proportion(plain, rate.Sum, rates.Sum(other => other.Sum), minorUnits));
        // What rounding leaves over goes to the rate with the most on it, so that nothing of a plain amount is lost.
        if (change.Change.Percent is null)
            shares[0] += plain - shares.Sum();
        return rates.Zip(shares, (rate, amount) => new ChangeShare(change.Text, rate.Key, change.Change.Percent, rate.Sum, amount)).Where(share => share.Amount != 0);
    }

    private static decimal Proportion(decimal amount, decimal part, decimal whole, int minorUnits) =>
        whole == 0 ? 0 : Totals.Round(amount * part / whole, minorUnits);
}
