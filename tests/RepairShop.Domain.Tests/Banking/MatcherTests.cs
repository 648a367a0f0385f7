using RepairShop.Domain.Banking;
using RepairShop.Domain.Shop;
using Xunit;
using static RepairShop.Domain.Tests.Banking.SomeLines;

namespace RepairShop.Domain.Tests.Banking;

public sealed class MatcherTests
{
    [Theory]
    [InlineData("72.59", MatchState.ReferenceAndLess)]
    [InlineData("72.60", MatchState.ReferenceAndAmount)]
    [InlineData("72.61", MatchState.ReferenceAndMore)]
    public void A_line_that_names_an_invoice_is_sure_only_to_the_cent(string amount, MatchState state)
    {
        var came = decimal.Parse(amount, System.Globalization.CultureInfo.InvariantCulture);
        var match = Match(Line(came, "Invoice I-2026-0042, thank you"), Owed("I-2026-0042", 72.60m), Owed("I-2026-0043", came));
        Assert.Equal((state, state == MatchState.ReferenceAndAmount), (match.State, match.IsSure));
        var way = Assert.Single(match.Proposals);
        Assert.Equal(Math.Min(came, 72.60m), Assert.Single(way.Shares).Amount);
        Assert.Equal([new MatchReason(MatchReasonKind.NumberInText, "I-2026-0042")], way.Reasons);
    }

    [Theory]
    [InlineData("I-2026-0042")]
    [InlineData("i20260042")]
    [InlineData("I 2026 0042")]
    [InlineData("I/2026/00 42")]
    [InlineData("INVOICEI-2026-0042")] // a line break of the bank's swallowed the blank
    [InlineData("No. I–2026–0042.")]
    [InlineData("RF65I20260042")]
    [InlineData("rf65 i202 6004 2")]
    public void A_number_is_found_as_people_and_banks_write_it(string text) =>
        Assert.Equal("I-2026-0042", Assert.Single(new NumberFinder(["I-2026-0042", "I-2026-0004"]).In(text)).Number);

    [Theory]
    [InlineData("I-2026-00421")]
    [InlineData("I-2026-004")]
    [InlineData("2026-0042")]
    [InlineData("")]
    [InlineData("12026-0042")]
    [InlineData("I-2026-004; 2 films")]
    [InlineData("I-2026-004\n2")] // from one field into the next
    public void Another_number_is_not_it(string text) => Assert.Empty(new NumberFinder(["I-2026-0042"]).In(text));

    [Fact]
    public void A_number_that_begins_with_a_digit_is_not_found_inside_a_longer_one_and_a_short_one_only_alone()
    {
        Assert.Empty(new NumberFinder(["20260042"]).In("ref 120260042"));
        Assert.Single(new NumberFinder(["20260042"]).In("ref 20260042"));
        Assert.Empty(new NumberFinder(["42"]).In("42 High Street"));
        Assert.Equal("42", Assert.Single(new NumberFinder(["42"]).In(" 42 ")).Number);
        Assert.Equal(["I-1000", "I-10000"], new NumberFinder(["I-1000", "I-10000"]).In("I-1000, I-10000").Select(one => one.Number));
    }

    /// <summary>ISO 11649: the published example RF18 5390 0754 7034 is the reference of the number 539007547034.</summary>
    [Fact]
    public void The_creditor_reference_is_told_apart_from_the_number_alone()
    {
        Assert.Equal("RF18539007547034", CreditorReference.Of("539007547034"));
        var invoice = Owed("539007547034", 5);
        Assert.Equal(MatchReasonKind.CreditorReference, Match(Line(5, reference: "RF18 5390 0754 7034"), invoice).Proposals[0].Reasons[0].Kind);
        Assert.Equal(MatchReasonKind.NumberInReference, Match(Line(5, reference: "539007547034"), invoice).Proposals[0].Reasons[0].Kind);
        // With a digit wrong the check digits do not fit, and what is left is a number inside a longer one.
        Assert.Equal(MatchState.AmountAlone, Match(Line(5, reference: "RF19539007547034"), invoice).State);
    }

    [Fact]
    public void Several_named_invoices_of_one_customer_are_paid_together_oldest_first()
    {
        OpenInvoice[] owed = [Owed("I-2026-0002", 30, daysAgo: 5), Owed("I-2026-0001", 20, daysAgo: 9)];
        var whole = Match(Line(50, "I-2026-0002 and I-2026-0001"), owed);
        Assert.Equal(MatchState.ReferenceAndAmount, whole.State);
        Assert.Equal([20m, 30m], whole.Proposals[0].Shares.Select(share => share.Amount));
        var less = Match(Line(45, "I-2026-0002 and I-2026-0001"), owed);
        Assert.Equal(MatchState.ReferenceAndLess, less.State);
        Assert.Equal([20m, 25m], less.Proposals[0].Shares.Select(share => share.Amount));
    }

    [Fact]
    public void Invoices_of_two_customers_in_one_line_are_left_to_a_person()
    {
        var match = Match(Line(50, "I-2026-0001 I-2026-0002"), Owed("I-2026-0001", 20), Owed("I-2026-0002", 30, Bea, "Bea Other"));
        Assert.Equal((MatchState.SeveralFit, false, 2), (match.State, match.IsSure, match.Proposals.Count));
    }

    [Fact]
    public void The_amount_alone_is_never_sure_and_says_so_where_several_owe_as_much()
    {
        var one = Match(Line(72.60m, "thanks", "Somebody Else"), Owed("I-2026-0001", 72.60m));
        Assert.Equal((MatchState.AmountAlone, false), (one.State, one.IsSure));
        var several = Match(Line(72.60m, "thanks", "SAMPLE, ADA"), Owed("I-2026-0001", 72.60m, Bea, "Bea Other", daysAgo: 90), Owed("I-2026-0002", 72.60m));
        Assert.Equal((MatchState.SeveralFit, Ada), (several.State, several.Proposals[0].Customer));
        Assert.Equal([MatchReasonKind.AmountOwed, MatchReasonKind.NameSimilar], several.Proposals[0].Reasons.Select(reason => reason.Kind));
        Assert.Equal(MatchState.NothingFits, Match(Line(72.61m, "thanks", "Somebody Else"), Owed("I-2026-0001", 72.60m)).State);
    }

    [Fact]
    public void Who_paid_from_an_account_seen_before_is_proposed_but_not_for_sure()
    {
        OpenInvoice[] owed = [Owed("I-2026-0001", 20), Owed("I-2026-0002", 30)];
        var seen = new[] { Ada }.ToLookup(_ => "GB82WEST12345698765432");
        LineMatch Of(decimal amount)
        {
            var line = Line(amount, iban: "GB82WEST12345698765432");
            return new Matcher(owed, [], seen).Match([line])[line.Id];
        }

        Assert.Equal((MatchState.PayerAlone, MatchReasonKind.AccountSeen), (Of(25).State, Of(25).Proposals[0].Reasons[0].Kind));
        Assert.Equal([20m, 5m], Of(25).Proposals[0].Shares.Select(share => share.Amount));
        Assert.Equal((MatchState.AmountAlone, MatchReasonKind.AmountOwedTogether), (Of(50).State, Of(50).Proposals[0].Reasons[0].Kind));
    }

    [Fact]
    public void Two_lines_for_more_than_is_owed_are_both_in_doubt_and_two_instalments_are_not()
    {
        var owed = Owed("I-2026-0001", 72.60m);
        MatchState[] Of(params decimal[] amounts)
        {
            var lines = amounts.Select(amount => Line(amount, "I-2026-0001")).ToList();
            var matches = new Matcher([owed], [], Nobody).Match(lines);
            return [.. lines.Select(line => matches[line.Id].State)];
        }

        Assert.Equal([MatchState.ClaimedTwice, MatchState.ClaimedTwice], Of(72.60m, 72.60m));
        Assert.Equal([MatchState.ReferenceAndLess, MatchState.ReferenceAndLess], Of(40, 32.60m));
        Assert.Equal([MatchState.ClaimedTwice, MatchState.ClaimedTwice], Of(40, 32.61m));
    }

    [Fact]
    public void What_a_line_names_is_no_longer_there_for_one_that_is_only_as_much()
    {
        var (named, other) = (Line(72.60m, "I-2026-0001"), Line(72.60m));
        var matches = new Matcher([Owed("I-2026-0001", 72.60m)], [], Nobody).Match([other, named]);
        Assert.Equal((MatchState.ReferenceAndAmount, MatchState.NothingFits), (matches[named.Id].State, matches[other.Id].State));
    }

    [Fact]
    public void A_line_that_names_what_was_settled_says_so_and_is_not_sure_of_anything_else()
    {
        var line = Line(72.60m, "I-2026-0001");
        var match = new Matcher([Owed("I-2026-0009", 72.60m)], ["I-2026-0001"], Nobody).Match([line])[line.Id];
        Assert.Equal(MatchState.AmountAlone, match.State);
        Assert.Equal(["I-2026-0001"], match.Settled);
    }

    [Theory]
    [InlineData("LUKASZ EXAMPLE", "Łukasz Example", true)]
    [InlineData("Mueller Juergen", "Jürgen Müller", true)]
    [InlineData("Sean O'Brien", "Seán OBrien", true)]
    [InlineData("M. EXAMPLE", "Łukasz Example", false)]
    [InlineData("Example Optics Ltd", "Example Optics", true)]
    [InlineData("Harbour", "Harbour Steps Cameras", true)]
    [InlineData("Ada", "Ada Sample", false)]
    [InlineData("", "", false)]
    [InlineData("\uD800", "\uD800", false)]
    public void Names_are_alike_in_any_order_and_spelling(string payer, string customer, bool alike) => Assert.Equal(alike, NameLikeness.Are(payer, customer));
}
