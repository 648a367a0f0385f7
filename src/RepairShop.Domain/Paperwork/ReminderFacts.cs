namespace RepairShop.Domain.Paperwork;

/// <summary>Asks one customer for what is late on one or several invoices.</summary>
public sealed record ReminderFacts : PaperFacts
{
    /// <summary>On the paper, so that nobody who has paid feels accused.</summary>
    public const string Crossed = "If your payment has crossed this letter, please disregard it.";

    public required PartyFacts Customer { get; init; }
    public required DateOnly IssueDate { get; init; }

    /// <summary>What the step is called: Second reminder.</summary>
    public required string Title { get; init; }

    /// <summary>The shop's own words, filled in.</summary>
    public required string Text { get; init; }

    /// <summary>ISO 4217.</summary>
    public required string Currency { get; init; }

    /// <summary>Longest due first.</summary>
    public required IReadOnlyList<ReminderLineFacts> Lines { get; init; }

    /// <summary>Of all lines.</summary>
    public required decimal Due { get; init; }

    /// <summary>Asked for in addition; 0 for none.</summary>
    public decimal Fee { get; init; }

    /// <summary>Of letters before, neither paid nor waived.</summary>
    public IReadOnlyList<ReminderFeeFacts> EarlierFees { get; init; } = [];

    /// <summary><see cref="Due"/> and all fees.</summary>
    public required decimal Total { get; init; }

    /// <summary>The new day to pay by.</summary>
    public required DateOnly PayBy { get; init; }

    /// <summary>What to write on the transfer, where one invoice alone is concerned.</summary>
    public string? PaymentReference { get; init; }
}

/// <summary>One invoice that is late.</summary>
/// <param name="Number"></param>
/// <param name="IssueDate"></param>
/// <param name="DueDate"></param>
/// <param name="Amount">As it was issued, with tax.</param>
/// <param name="Paid">Since.</param>
/// <param name="Credited">Given back with credit notes.</param>
/// <param name="WrittenOff"></param>
/// <param name="Due">What is left of it.</param>
/// <param name="DaysLate"></param>
public sealed record ReminderLineFacts(
    string Number, DateOnly IssueDate, DateOnly DueDate, decimal Amount, decimal Paid, decimal Credited, decimal WrittenOff, decimal Due, int DaysLate);

/// <summary>A fee of an earlier letter.</summary>
public sealed record ReminderFeeFacts(string PaperNumber, DateOnly On, decimal Amount);
