using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;

namespace RepairShop.Domain.Ledger;

/// <summary>One billed line as the journal sees it.</summary>
/// <param name="Account">Where its net amount goes.</param>
/// <param name="Amount">As priced, with or without tax: only its proportion to the rate's other lines matters. A deposit's is without tax and stays as it is.</param>
/// <param name="TaxName"></param>
/// <param name="TaxPercent"></param>
public sealed record BilledLine(LedgerAccount Account, decimal Amount, string TaxName, decimal TaxPercent);

/// <summary>What is written into the journal for what happened. Every list of lines adds up to zero.</summary>
public static class Postings
{
    /// <summary>Revenue's account for a kind of line.</summary>
    public static LedgerAccount AccountOf(LineKind kind) => kind switch
    {
        LineKind.Labour => LedgerAccount.RevenueLabour,
        LineKind.Part => LedgerAccount.RevenueParts,
        _ => LedgerAccount.RevenueOther,
    };

    /// <summary>Where money of a kind lies once it is taken.</summary>
    public static LedgerAccount AccountOf(PaymentMethod method) => method switch
    {
        PaymentMethod.Cash => LedgerAccount.Cash,
        PaymentMethod.BankTransfer => LedgerAccount.Bank,
        _ => LedgerAccount.MoneyUnderWay,
    };

    /// <summary>Receivables against revenue and tax; the other way round for a credit note.</summary>
    /// <param name="kind"></param>
    /// <param name="lines">Each rate's net is shared out over its lines in proportion to their amounts.</param>
    /// <param name="taxes">Net and tax per rate, as printed; empty where no tax is charged.</param>
    /// <param name="net">Of the whole paper, in the currency's minor unit at most.</param>
    /// <param name="owed">What the customer is to pay: where it is not net and tax together, the rest is rounding.</param>
    /// <param name="minorUnits">Digits after the point (ISO 4217).</param>
    public static List<JournalLine> OfInvoice(
        InvoiceKind kind, IReadOnlyList<BilledLine> lines, IReadOnlyList<TaxTotal> taxes, decimal net, decimal owed, int minorUnits)
    {
        var sign = kind == InvoiceKind.CreditNote ? -1 : 1;
        var journal = new List<JournalLine>();
        Add(journal, LedgerAccount.Receivables, sign * owed);
        IEnumerable<TaxTotal> rates = taxes.Count > 0 ? taxes : [new TaxTotal("", 0, net, 0)];
        foreach (var rate in rates)
        {
            var own = taxes.Count > 0 ? [.. lines.Where(line => (line.TaxName, line.TaxPercent) == (rate.Name, rate.Percent))] : lines;
            foreach (var (account, amount) in Shares(own, rate.Net, minorUnits))
                Add(journal, account, -sign * amount, rate.Name, rate.Percent);
            Add(journal, LedgerAccount.Tax, -sign * rate.Tax, rate.Name, rate.Percent);
        }
        Add(journal, LedgerAccount.Rounding, -journal.Sum(line => line.Amount));
        return Numbered(journal);
    }

    /// <param name="amount">Received, or given back when below zero.</param>
    /// <param name="into">See <see cref="AccountOf(PaymentMethod)"/>.</param>
    public static List<JournalLine> OfPayment(decimal amount, LedgerAccount into)
    {
        var journal = new List<JournalLine>();
        Add(journal, into, amount);
        Add(journal, LedgerAccount.Receivables, -amount);
        return Numbered(journal);
    }

    /// <summary>A deposit keeps its own amount; the rest is shared out so that all adds up to the net exactly.</summary>
    private static List<(LedgerAccount Account, decimal Amount)> Shares(IReadOnlyList<BilledLine> lines, decimal net, int minorUnits)
    {
        var deposits = lines.Where(line => line.Account == LedgerAccount.Deposits).Sum(line => line.Amount);
        var earned = lines.Where(line => line.Account != LedgerAccount.Deposits).ToList();
        if (earned.Count == 0 && lines.Count > 0)
            return [(LedgerAccount.Deposits, net)];
        var shares = Proportion(earned, net - deposits, minorUnits);
        shares.Add((LedgerAccount.Deposits, deposits));
        return shares;
    }

    /// <summary>Each account's share is rounded, what is left over goes to the largest.</summary>
    private static List<(LedgerAccount Account, decimal Amount)> Proportion(List<BilledLine> lines, decimal net, int minorUnits)
    {
        var sums = lines.GroupBy(line => line.Account).Select(group => (Account: group.Key, Sum: group.Sum(line => line.Amount)))
            .Where(share => share.Sum != 0).OrderByDescending(share => Math.Abs(share.Sum)).ThenBy(share => share.Account).ToList();
        var whole = sums.Sum(share => share.Sum);
        if (whole == 0)
        {
            // Lines that cancel out have no proportion: each keeps its own amount.
            sums.Add((LedgerAccount.RevenueOther, net));
            return sums;
        }
        var shares = sums.ConvertAll(share => (share.Account, Amount: Totals.Round(net * share.Sum / whole, minorUnits)));
        shares[0] = (shares[0].Account, shares[0].Amount + net - shares.Sum(share => share.Amount));
        return shares;
    }

    private static void Add(List<JournalLine> journal, LedgerAccount account, decimal amount, string taxName = "", decimal taxPercent = 0)
    {
        if (amount != 0)
            journal.Add(new JournalLine { Account = account, Amount = amount, TaxName = taxName, TaxPercent = taxPercent });
    }

    private static List<JournalLine> Numbered(List<JournalLine> journal)
    {
        for (var index = 0; index < journal.Count; index++)
            journal[index].Position = index + 1;
        return journal;
    }
}
