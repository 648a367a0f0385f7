using RepairShop.Domain.Banking;
using RepairShop.Services.Banking;
using RepairShop.Services.Shop;

namespace RepairShop.Web.Pages.Banking;

/// <summary>What is known of a line, as people say it; never surer than it is.</summary>
public static class BankText
{
    public static string Of(MatchView match, ShopFace face) => match.State switch
    {
        MatchState.ReferenceAndAmount => "Reference and amount agree",
        MatchState.ReferenceAndLess => $"Reference agrees, {face.Money(Owed(match.Proposals[0]) - match.Proposals[0].Shares.Sum(share => share.Amount))} too little",
        MatchState.ReferenceAndMore => $"Reference agrees, {face.Money(match.Proposals[0].Rest)} too much",
        MatchState.AmountAlone => "The amount alone fits",
        MatchState.PayerAlone => "Only the payer fits",
        MatchState.SeveralFit => match.Proposals.All(way => way.Reasons[0].Kind <= MatchReasonKind.NumberInText)
            ? "It names invoices of several customers: one line is booked for one of them"
            : "Several fit: choose one",
        MatchState.ClaimedTwice => "Other lines claim the same invoice, together for too much",
        _ => "Nothing fits",
    };

    public static string Of(MatchReason reason) => reason.Kind switch
    {
        MatchReasonKind.CreditorReference => $"carries the reference of {reason.Subject}",
        MatchReasonKind.NumberInReference => $"names {reason.Subject} as its reference",
        MatchReasonKind.NumberInText => $"names {reason.Subject} in its text",
        MatchReasonKind.AmountOwed => $"as much as is owed on {reason.Subject}",
        MatchReasonKind.AmountOwedTogether => "as much as the customer owes together",
        MatchReasonKind.AccountSeen => "paid from this account before",
        _ => "the name is alike",
    };

    public static string Reasons(ProposalView way) => string.Join(", ", way.Reasons.Select(Of));

    public static string Settled(MatchView match) => match.Settled.Count == 0 ? "" : $"It names {string.Join(" and ", match.Settled)}, on which nothing is owed any more.";

    public static string Of(BankLineBar bar) => bar switch
    {
        BankLineBar.MoneyOut => "money out, not booked here",
        BankLineBar.Reversal => "takes an earlier line back, not booked here",
        BankLineBar.NotBookedYet => "not booked by the bank yet; it comes again",
        BankLineBar.OtherCurrency => "another currency, record it by hand",
        _ => "moves nothing",
    };

    /// <summary>What a way of booking pays, in one line: I-2026-0001 with €72.60, and €2.00 kept as credit.</summary>
    public static string Pays(ProposalView way, ShopFace face) => string.Join(", ",
        way.Shares.Select(share => share.Amount == share.Owed ? $"{share.Number}, {face.Money(share.Amount)}" : $"{share.Number}, {face.Money(share.Amount)} of {face.Money(share.Owed)}")
            .Concat(way.Rest > 0 ? [$"{face.Money(way.Rest)} kept as credit"] : []));

    public static string Days(DateOnly? from, DateOnly? until, ShopFace face) =>
        from is not { } first || until is not { } last ? "" : first == last ? face.Date(first) : $"{face.Date(first)} to {face.Date(last)}";

    private static decimal Owed(ProposalView way) => way.Shares.Sum(share => share.Owed);
}
