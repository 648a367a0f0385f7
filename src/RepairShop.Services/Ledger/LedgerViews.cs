using RepairShop.Domain.Ledger;

namespace RepairShop.Services.Ledger;

/// <summary>One month of the ledger.</summary>
/// <param name="Month">Its first day.</param>
/// <param name="Balances">Accounts something was ever written to.</param>
/// <param name="IsClosed"></param>
/// <param name="ClosedAt">When this very month was closed; null where a later one closed it too.</param>
/// <param name="First">The first month with an entry; null in an empty journal.</param>
public sealed record LedgerMonth(DateOnly Month, IReadOnlyList<AccountBalance> Balances, bool IsClosed, DateTimeOffset? ClosedAt, DateOnly? First);

/// <param name="Account"></param>
/// <param name="Number"></param>
/// <param name="Name"></param>
/// <param name="Currency"></param>
/// <param name="Before">At the start; plus is a debit balance.</param>
/// <param name="Debit"></param>
/// <param name="Credit"></param>
public sealed record AccountBalance(LedgerAccount Account, string Number, string Name, string Currency, decimal Before, decimal Debit, decimal Credit)
{
    public decimal After => Before + Debit - Credit;
}

/// <summary>A line of the journal with what stands behind it.</summary>
/// <param name="Entry">The entry's number.</param>
/// <param name="Paper">Number of the invoice or credit note; empty for stock.</param>
/// <param name="Repair">Number of the repair; null for stock that was not fitted.</param>
/// <param name="PartId">The part whose stock moved.</param>
/// <param name="Text">Who, or which part.</param>
public sealed record LedgerRow(
    long Entry, int Position, DateOnly Date, JournalSource Source, LedgerAccount Account, decimal Amount, string Currency,
    string TaxName, decimal TaxPercent, string Paper, string? Repair, Guid? PartId, string Text);

/// <param name="Rows"></param>
/// <param name="Next">Entry number the next page goes on after; null at the end.</param>
public sealed record LedgerPage(IReadOnlyList<LedgerRow> Rows, long? Next);
