using RepairShop.Domain.Invoices;

namespace RepairShop.Domain.Banking;

/// <summary>An invoice with something owed, as lines are held against it.</summary>
/// <param name="Customer">Whose it is.</param>
/// <param name="Names">The customer's name and company, as far as they are known.</param>
/// <param name="Invoice">Number, days, and what is owed.</param>
public sealed record OpenInvoice(Guid Customer, IReadOnlyList<string> Names, OwedInvoice Invoice);

/// <summary>An incoming line that waits for somebody to say what it paid.</summary>
/// <param name="Id"></param>
/// <param name="BookedOn"></param>
/// <param name="Amount">Above 0, in the currency of the invoices.</param>
/// <param name="Name">Who paid.</param>
/// <param name="Iban">From where.</param>
/// <param name="Reference">Structured.</param>
/// <param name="Text">What the payer wrote, with the end-to-end id on a line of its own.</param>
public sealed record OpenLine(Guid Id, DateOnly BookedOn, decimal Amount, string Name, string Iban, string Reference, string Text);

/// <summary>How far a line's purpose is known. In the order of certainty.</summary>
public enum MatchState
{
    /// <summary>It names invoices of one customer, and the amount is what is owed on them.</summary>
    ReferenceAndAmount,

    /// <summary>It names them, but less came than is owed.</summary>
    ReferenceAndLess,

    /// <summary>It names them, but more came than is owed.</summary>
    ReferenceAndMore,

    /// <summary>It names no invoice that is open; one thing owed is exactly as much.</summary>
    AmountAlone,

    /// <summary>Neither reference nor amount; only who pays is known.</summary>
    PayerAlone,

    /// <summary>Several things fit, and nothing says which.</summary>
    SeveralFit,

    /// <summary>Other lines claim the same invoice, together for more than is owed on it.</summary>
    ClaimedTwice,

    NothingFits,
}

public enum MatchReasonKind
{
    /// <summary>The creditor reference (ISO 11649) of an invoice.</summary>
    CreditorReference,

    /// <summary>An invoice's number, in the structured reference.</summary>
    NumberInReference,

    /// <summary>An invoice's number, in what the payer wrote.</summary>
    NumberInText,

    /// <summary>The amount is what is owed.</summary>
    AmountOwed,

    /// <summary>The amount is all that the customer owes together.</summary>
    AmountOwedTogether,

    /// <summary>A booked line came from the same account.</summary>
    AccountSeen,

    /// <summary>The payer's name is like the customer's.</summary>
    NameSimilar,
}

/// <param name="Kind"></param>
/// <param name="Subject">The invoice's number where the reason is about one; else empty.</param>
public sealed record MatchReason(MatchReasonKind Kind, string Subject);

/// <summary>One way to book a line: never more on an invoice than is owed on it; what is over is kept as the customer's credit.</summary>
public sealed record MatchProposal(Guid Customer, IReadOnlyList<ReceiptShare> Shares, IReadOnlyList<MatchReason> Reasons)
{
    public decimal Shared => Shares.Sum(share => share.Amount);
}

/// <param name="State"></param>
/// <param name="Proposals">The likeliest first; empty where nothing fits.</param>
/// <param name="Settled">Numbers it names on which nothing is owed any more.</param>
public sealed record LineMatch(MatchState State, IReadOnlyList<MatchProposal> Proposals, IReadOnlyList<string> Settled)
{
    /// <summary>Sure enough to be ticked beforehand; a person still clicks.</summary>
    public bool IsSure => State == MatchState.ReferenceAndAmount;
}
