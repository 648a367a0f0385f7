namespace RepairShop.Domain.Banking;

/// <summary>One file of a bank, taken in once. Append-only; the file itself lies in the file store.</summary>
public sealed class BankStatement
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public StatementFormat Format { get; set; }

    public string FileName { get; set; } = "";

    /// <summary>SHA-256 of the content: the same file is taken in once.</summary>
    public string FileHash { get; set; } = "";

    public string Account { get; set; } = "";

    /// <summary>The bank's own name for it.</summary>
    public string Number { get; set; } = "";

    public string Currency { get; set; } = "";

    public DateOnly? From { get; set; }

    public DateOnly? Until { get; set; }

    public decimal? Opening { get; set; }

    public decimal? Closing { get; set; }

    /// <summary>Lines new with this file.</summary>
    public int LineCount { get; set; }

    /// <summary>Lines that an earlier file had brought already.</summary>
    public int KnownCount { get; set; }

    public string[] Warnings { get; set; } = [];

    public DateTimeOffset ImportedAt { get; set; }

    public Guid ImportedBy { get; set; }
}

public enum StatementFormat
{
    Camt,
    Csv,
}

/// <summary>One movement of an account. Append-only: what became of it is said by the receipt that names it and by its <see cref="BankLineNote"/>s.</summary>
public sealed class BankLine
{
    public const int LongestText = 2000, LongestName = 200, LongestReference = 140, LongestAccount = 40;

    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid StatementId { get; set; }

    /// <summary>In its file, from 1.</summary>
    public int Position { get; set; }

    public string Account { get; set; } = "";

    public DateOnly BookedOn { get; set; }

    public DateOnly? ValuedOn { get; set; }

    public decimal Amount { get; set; }

    public string Currency { get; set; } = "";

    public bool IsCredit { get; set; }

    public BankLineBar Bar { get; set; }

    public string Name { get; set; } = "";

    public string Iban { get; set; } = "";

    public string Text { get; set; } = "";

    public string Reference { get; set; } = "";

    public string BankReference { get; set; } = "";

    public string EndToEndId { get; set; } = "";

    /// <summary>See <see cref="LineIdentity"/>: by it the line is known when it comes again.</summary>
    public string Identity { get; set; } = "";
}

/// <summary>Why a line is never booked as a customer's money.</summary>
public enum BankLineBar
{
    None,
    MoneyOut,
    Reversal,
    NotBookedYet,
    OtherCurrency,
    Nothing,
}

/// <summary>A line is set aside, or taken up again. The latest one holds. Append-only.</summary>
public sealed class BankLineNote
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid LineId { get; set; }

    /// <summary>From 1; odd ones set aside, even ones take up again. One each, so that of two people at once one is told.</summary>
    public int Number { get; set; }

    public string Reason { get; set; } = "";

    public DateTimeOffset At { get; set; }

    public Guid By { get; set; }
}

/// <summary>How a bank's table was read the last time, found again by its head.</summary>
public sealed class BankLayout
{
    /// <summary>SHA-256 of the head's words.</summary>
    public string Id { get; set; } = "";

    /// <summary>The columns, as JSON.</summary>
    public string Columns { get; set; } = "{}";

    public DateTimeOffset SavedAt { get; set; }
}
