using RepairShop.Domain.Banking;
using RepairShop.Domain.Invoices;
using Xunit;
using static RepairShop.Domain.Tests.Banking.SomeLines;

namespace RepairShop.Domain.Tests.Banking;

/// <summary>Random workshops with what is owed to them, and random lines that name, half name or miss it; the same ones each time.</summary>
public sealed class MatcherPropertyTests
{
    private const int Cases = 400, Seed = 20_261_126;

    private static readonly string[] Names = ["Ada Sample", "Bea Other", "Łukasz Example", "Example Optics"];

    [Fact]
    public void Nothing_is_proposed_above_what_is_owed_or_came_not_even_by_all_that_is_claimed_together() => ForAll((open, lines, matcher) =>
    {
        var matches = matcher.Match(lines);
        Assert.Equal(lines.Select(line => line.Id).Order(), matches.Keys.Order());
        var owed = open.ToDictionary(one => one.Invoice.Id);
        foreach (var line in lines)
        {
            Assert.All(matches[line.Id].Proposals, way =>
            {
                Assert.InRange(way.Shared, 0.01m, line.Amount);
                Assert.All(way.Shares, share => Assert.InRange(share.Amount, 0.01m, owed[share.InvoiceId].Invoice.Owed));
                Assert.All(way.Shares, share => Assert.Equal(way.Customer, owed[share.InvoiceId].Customer));
                Assert.Equal(way.Shares.Count, way.Shares.Select(share => share.InvoiceId).Distinct().Count());
                Assert.NotEmpty(way.Reasons);
            });
            Assert.Equal(matches[line.Id].State == MatchState.NothingFits, matches[line.Id].Proposals.Count == 0);
        }

        var claimed = matches.Values.Where(match => match.State is <= MatchState.AmountAlone).SelectMany(match => match.Proposals[0].Shares)
            .GroupBy(share => share.InvoiceId, share => share.Amount);
        Assert.All(claimed, group => Assert.True(group.Sum() <= owed[group.Key].Invoice.Owed));
    });

    [Fact]
    public void A_sure_one_names_every_invoice_it_pays_and_pays_them_whole() => ForAll((open, lines, matcher) =>
    {
        foreach (var (id, match) in matcher.Match(lines).Where(one => one.Value.IsSure))
        {
            var line = lines.Single(one => one.Id == id);
            Assert.Equal(line.Amount, match.Proposals.Single().Shared);
            Assert.All(match.Proposals[0].Shares, share =>
            {
                var invoice = open.Single(one => one.Invoice.Id == share.InvoiceId);
                Assert.Equal(invoice.Invoice.Owed, share.Amount);
                Assert.Contains(NumberFinder.Plain(invoice.Invoice.Number), NumberFinder.Plain(line.Text + line.Reference), StringComparison.Ordinal);
            });
        }
    });

    [Fact]
    public void The_order_of_lines_and_of_invoices_changes_nothing() => ForAll((open, lines, matcher) =>
    {
        var shuffled = new Matcher([.. open.Reverse()], [], Nobody).Match([.. lines.Reverse()]);
        Assert.All(matcher.Match(lines), one => Assert.Equal(Said(one.Value), Said(shuffled[one.Key])));
    });

    [Fact]
    public void The_identities_of_lines_do_not_depend_on_their_order_and_lines_alike_are_counted() => ForAll((_, lines, _) =>
    {
        var read = lines.Select((line, i) => new ReadLine
        {
            Account = "A",
            BookedOn = line.BookedOn,
            Amount = i % 3,
            Currency = "EUR",
            IsCredit = true,
            Text = line.Text,
            BankReference = i % 2 == 0 ? "NONREF" : "",
        }).ToList();
        var all = LineIdentity.Of(read);
        Assert.Equal(all.Count, all.Distinct().Count());
        Assert.Equal(all.Order(StringComparer.Ordinal), LineIdentity.Of(Enumerable.Reverse(read)).Order(StringComparer.Ordinal));
        Assert.Equal(all, LineIdentity.Of([.. read, .. read]).Take(all.Count));
        Assert.Equal(2 * all.Count, LineIdentity.Of([.. read, .. read]).Distinct().Count());
    });

    private static string Said(LineMatch match) =>
        $"{match.State}: {string.Join(" | ", match.Proposals.Select(way => $"{way.Customer} {string.Join(',', way.Shares.Select(share => $"{share.InvoiceId}={share.Amount}"))} {string.Join(',', way.Reasons.Order(Comparer<MatchReason>.Create((a, b) => string.CompareOrdinal($"{a}", $"{b}"))))}"))}";

    private static void ForAll(Action<IReadOnlyList<OpenInvoice>, IReadOnlyList<OpenLine>, Matcher> holds)
    {
        var chance = new Random(Seed);
        for (var i = 0; i < Cases; i++)
        {
            var open = Enumerable.Range(1, chance.Next(1, 9)).Select(number =>
            {
                var who = chance.Next(Names.Length);
                return new OpenInvoice(new Guid(who, 0, 0, new byte[8]), [Names[who]], new OwedInvoice(
                    Guid.NewGuid(), Today.AddDays(-chance.Next(3)), Today.AddDays(-chance.Next(20, 22)), $"I-2026-{number:0000}", chance.Next(1, 5)));
            }).ToList();
            var lines = Enumerable.Range(0, chance.Next(0, 7)).Select(_ => Line(
                chance.Next(1, 9), string.Join(' ', Enumerable.Range(0, chance.Next(3)).Select(_ => $"i 2026-{chance.Next(1, 12):0000}")), Names[chance.Next(Names.Length)])).ToList();
            holds(open, lines, new Matcher(open, [], Nobody));
        }
    }
}
