namespace RepairShop.Domain.Banking;

/// <summary>A bank's file as it was read: its lines in their order, and what in it does not fit together.</summary>
/// <param name="Account">Whose statement it is, IBAN or the bank's own number; several accounts are named one after the other.</param>
/// <param name="Currency">ISO 4217; empty where the file names none.</param>
/// <param name="Number">The bank's name for the statement; empty without one.</param>
/// <param name="Opening">Null where none is given, or where the file holds several accounts.</param>
/// <param name="Closing"></param>
/// <param name="Lines"></param>
/// <param name="Warnings">Sentences: the file was read, but a person should know.</param>
public sealed record ReadStatement(
    string Account, string Currency, string Number, decimal? Opening, decimal? Closing, IReadOnlyList<ReadLine> Lines, IReadOnlyList<string> Warnings);

/// <summary>One movement as the bank wrote it. Texts that are not given are empty.</summary>
public sealed record ReadLine
{
    /// <summary>IBAN or the bank's own number of the account that moved.</summary>
    public string Account { get; init; } = "";

    public required DateOnly BookedOn { get; init; }

    public DateOnly? ValuedOn { get; init; }

    /// <summary>Not below zero: the direction stands apart.</summary>
    public required decimal Amount { get; init; }

    /// <summary>ISO 4217.</summary>
    public required string Currency { get; init; }

    /// <summary>Money in.</summary>
    public required bool IsCredit { get; init; }

    /// <summary>Takes an earlier movement back.</summary>
    public bool IsReversal { get; init; }

    /// <summary>Told by the bank, but not on the account yet.</summary>
    public bool IsPending { get; init; }

    /// <summary>Who paid, or was paid.</summary>
    public string Name { get; init; } = "";

    public string Iban { get; init; } = "";

    /// <summary>What the payer wrote.</summary>
    public string Text { get; init; } = "";

    /// <summary>The structured creditor reference (RF…), or a document's number.</summary>
    public string Reference { get; init; } = "";

    /// <summary>The bank's own name for the movement.</summary>
    public string BankReference { get; init; } = "";

    /// <summary>What the payer's side called the payment.</summary>
    public string EndToEndId { get; init; } = "";
}
