using RepairShop.Domain.Banking;

namespace RepairShop.Services.Banking;

/// <param name="Waiting">Lines that are neither booked nor set aside.</param>
public sealed record StatementRow(
    Guid Id, string FileName, string Account, DateOnly? From, DateOnly? Until, DateTimeOffset ImportedAt, int Lines, int Waiting);

/// <summary>One statement and some of its lines.</summary>
/// <param name="Next">Where the next page begins; null at the end.</param>
public sealed record StatementView(BankStatement Statement, string ImportedBy, LineCounts Counts, IReadOnlyList<BankLineView> Lines, int? Next);

/// <summary>How many lines of a statement are in which state.</summary>
public sealed record LineCounts(int Waiting, int Booked, int Aside, int NeverBooked);

public enum LineState
{
    Waiting,
    Booked,
    Aside,

    /// <summary>See <see cref="BankLine.Bar"/>.</summary>
    NeverBooked,
}

/// <summary>Which lines of a statement are shown.</summary>
public enum LineShow
{
    Waiting,
    All,
}

/// <param name="Match">Of a line that waits.</param>
/// <param name="Booked">Of a booked one.</param>
/// <param name="AsideReason">Of one set aside.</param>
public sealed record BankLineView(BankLine Line, LineState State, MatchView? Match, BookedView? Booked, string AsideReason);

/// <param name="Settled">Numbers it names on which nothing is owed any more.</param>
/// <param name="IsSure">May be ticked beforehand.</param>
public sealed record MatchView(MatchState State, bool IsSure, IReadOnlyList<ProposalView> Proposals, IReadOnlyList<string> Settled);

/// <param name="Rest">Kept as the customer's credit.</param>
/// <param name="Choice">See <see cref="BookingChoice"/>.</param>
public sealed record ProposalView(
    Guid Customer, string CustomerName, IReadOnlyList<ShareView> Shares, decimal Rest, IReadOnlyList<MatchReason> Reasons, string Choice);

/// <param name="Owed">Before it is paid; of a booked share 0.</param>
public sealed record ShareView(string Number, string RepairNumber, decimal Amount, decimal Owed);

/// <summary>What a line became.</summary>
public sealed record BookedView(Guid Receipt, Guid Customer, string CustomerName, IReadOnlyList<ShareView> Shares, decimal Kept, DateTimeOffset At, string By);
