namespace RepairShop.Domain.Paperwork;

/// <summary>What passed between the workshop and one customer in a span of days, and what is owed at its end.</summary>
public sealed record StatementFacts : PaperFacts
{
    public required PartyFacts Customer { get; init; }

    /// <summary>First day, and last day.</summary>
    public required DateOnly From { get; init; }
    public required DateOnly Until { get; init; }

    /// <summary>ISO 4217. Papers in another currency stand on a statement of their own.</summary>
    public required string Currency { get; init; }

    /// <summary>Owed when the first day began; below zero where the customer had credit.</summary>
    public required decimal Opening { get; init; }
    public required IReadOnlyList<StatementLineFacts> Lines { get; init; }

    /// <summary>Owed when the last day ended: opening and all lines together.</summary>
    public required decimal Closing { get; init; }

    /// <summary>Invoices open at the end by how late they are; together with <see cref="Credit"/> taken off they are <see cref="Closing"/>.</summary>
    public required AgesFacts Ages { get; init; }

    /// <summary>What the workshop holds for the customer at the end.</summary>
    public decimal Credit { get; init; }

    /// <summary>What the workshop has to give back on invoices at the end; 0 or above.</summary>
    public decimal ToGiveBack { get; init; }
}

public enum StatementLineKind
{
    Invoice,
    CreditNote,
    Payment,
    PaymentTakenBack,
    GivenBack,
    WriteOff,
    WriteOffUndone,
    Fee,
}

/// <summary>One line of a statement.</summary>
/// <param name="On"></param>
/// <param name="Kind"></param>
/// <param name="Paper">Number of the invoice or credit note it is about; empty for money paid at once for several.</param>
/// <param name="Text">The reference as it was recorded.</param>
/// <param name="Amount">Plus is owed more, minus is owed less.</param>
/// <param name="Balance">Owed after it.</param>
public sealed record StatementLineFacts(DateOnly On, StatementLineKind Kind, string Paper, string Text, decimal Amount, decimal Balance);

/// <summary>What is open, by days late on the last day.</summary>
public sealed record AgesFacts(decimal NotDue, decimal UpTo30, decimal UpTo60, decimal UpTo90, decimal Older)
{
    public decimal Overdue => UpTo30 + UpTo60 + UpTo90 + Older;

    public decimal Together => NotDue + Overdue;
}
