namespace RepairShop.Domain.Ledger;

/// <summary>The few accounts a workshop of this kind needs. How an accountant numbers and names them is the shop's mapping, see
/// <see cref="AccountChart"/>.</summary>
public enum LedgerAccount
{
    /// <summary>What customers owe.</summary>
    Receivables,
    Cash,
    Bank,

    /// <summary>Taken by card, cheque or otherwise and not yet seen on the bank's statement.</summary>
    MoneyUnderWay,

    /// <summary>Parts on hand at what they cost, first in first out.</summary>
    Stock,

    /// <summary>Tax charged; each line names its rate.</summary>
    Tax,

    /// <summary>Customers' money for which nothing was supplied yet: deposits and over-payments.</summary>
    Deposits,
    RevenueLabour,
    RevenueParts,
    RevenueOther,

    /// <summary>What the parts used in repairs had cost.</summary>
    CostOfParts,

    /// <summary>The other side of parts that came in, until the accountant books the supplier's bill.</summary>
    PartsReceived,

    /// <summary>Parts lost and found at a count.</summary>
    StockDifferences,

    /// <summary>What was given up as not to be had.</summary>
    WriteOffs,

    /// <summary>Cash rounding and the like.</summary>
    Rounding,
}
