using RepairShop.Domain.Invoices;

namespace RepairShop.Domain.Banking;

/// <summary>
/// Proposes what incoming lines pay. What a line names goes before what merely is as much; nothing is proposed above what is owed, not
/// even by several lines together; and the order of lines changes nothing.
/// </summary>
/// <param name="open">Invoices with something owed, in one currency.</param>
/// <param name="settled">Numbers, among those the lines name, on which nothing is owed any more.</param>
/// <param name="seen">Customers whose booked lines came from an account, by IBAN.</param>
public sealed class Matcher(IReadOnlyList<OpenInvoice> open, IReadOnlyList<string> settled, ILookup<string, Guid> seen)
{
    /// <summary>More ways than a person would read through.</summary>
    public const int MostProposals = 6;

    private readonly NumberFinder openNumbers = new(open.Select(one => one.Invoice.Number));
    private readonly NumberFinder settledNumbers = new(settled);
    private readonly Dictionary<string, OpenInvoice> byNumber = open.ToDictionary(one => one.Invoice.Number, StringComparer.Ordinal);

    /// <returns>What is said of each line, by its id.</returns>
    public IReadOnlyDictionary<Guid, LineMatch> Match(IReadOnlyList<OpenLine> lines)
    {
        var named = lines.ToDictionary(line => line.Id, ByReference);
        var matches = named.Where(one => one.Value is not null).ToDictionary(one => one.Key, one => one.Value!);
        Contest(matches, open);
        // What the lines that name it will pay is no longer there for those that are only as much.
        var claimed = matches.Values.Where(IsClaim).SelectMany(match => match.Proposals[0].Shares)
            .GroupBy(share => share.InvoiceId).ToDictionary(group => group.Key, group => group.Sum(share => share.Amount));
        var left = open.Select(one => one with { Invoice = one.Invoice with { Owed = one.Invoice.Owed - claimed.GetValueOrDefault(one.Invoice.Id) } })
            .Where(one => one.Invoice.Owed > 0).OrderBy(one => one.Invoice.Due ?? one.Invoice.Issued).ThenBy(one => one.Invoice.Issued)
            .ThenBy(one => one.Invoice.Number, StringComparer.Ordinal).ToList();
        var others = lines.Where(line => named[line.Id] is null).ToDictionary(line => line.Id, line => ByAmount(line, left));
        Contest(others, left);
        return matches.Concat(others).ToDictionary();
    }

    private static bool IsClaim(LineMatch match) => match.State is
        MatchState.ReferenceAndAmount or MatchState.ReferenceAndLess or MatchState.ReferenceAndMore or MatchState.AmountAlone;

    /// <summary>Lines that together claim more of an invoice than is owed on it are all in doubt: none of them was there first.</summary>
    private static void Contest(Dictionary<Guid, LineMatch> matches, IReadOnlyList<OpenInvoice> invoices)
    {
        var owed = invoices.ToDictionary(one => one.Invoice.Id, one => one.Invoice.Owed);
        var tooMuch = matches.Values.Where(IsClaim).SelectMany(match => match.Proposals[0].Shares).GroupBy(share => share.InvoiceId)
            .Where(group => group.Sum(share => share.Amount) > owed[group.Key]).Select(group => group.Key).ToHashSet();
        foreach (var (id, match) in matches.Where(one => IsClaim(one.Value) && one.Value.Proposals[0].Shares.Any(share => tooMuch.Contains(share.InvoiceId))).ToList())
            matches[id] = match with { State = MatchState.ClaimedTwice };
    }

    private LineMatch? ByReference(OpenLine line)
    {
        var inText = openNumbers.In(line.Text);
        var inReference = openNumbers.In(line.Reference);
        var found = inText.Concat(inReference).Select(one => one.Number).Distinct(StringComparer.Ordinal).Select(number => byNumber[number]).ToList();
        if (found.Count == 0)
            return null;
        var ways = found.GroupBy(one => one.Customer)
            .Select(group => Share(line, group.Key, [.. group], [.. group.SelectMany(one => Named(one.Invoice.Number, inReference, inText)), .. Payer(line, group.First())]))
            .OrderByDescending(way => way.Shared).ThenBy(way => SmallestNumber(way), StringComparer.Ordinal).Take(MostProposals).ToList();
        var gone = SettledIn(line);
        if (ways.Count > 1)
            return new LineMatch(MatchState.SeveralFit, ways, gone);
        var owed = found.Sum(one => one.Invoice.Owed);
        var state = line.Amount == owed ? MatchState.ReferenceAndAmount : line.Amount < owed ? MatchState.ReferenceAndLess : MatchState.ReferenceAndMore;
        return new LineMatch(state, ways, gone);
    }

    private LineMatch ByAmount(OpenLine line, List<OpenInvoice> left)
    {
        var fits = left.Where(one => one.Invoice.Owed == line.Amount)
            .Select(one => Share(line, one.Customer, [one], [new(MatchReasonKind.AmountOwed, one.Invoice.Number), .. Payer(line, one)]))
            .Concat(Together(line, left))
            .OrderByDescending(way => way.Reasons.Count).ToList(); // stable: the longest due first among equals
        var gone = SettledIn(line);
        if (fits.Count > 0)
            return new LineMatch(fits.Count == 1 ? MatchState.AmountAlone : MatchState.SeveralFit, [.. fits.Take(MostProposals)], gone);
        var known = left.GroupBy(one => one.Customer).Where(group => Payer(line, group.First()).Count > 0)
            .Select(group => Share(line, group.Key, [.. group], Payer(line, group.First())))
            .OrderByDescending(way => way.Reasons.Count).ThenBy(way => way.Reasons[0].Kind).ToList();
        return known.Count == 0
            ? new LineMatch(MatchState.NothingFits, [], gone)
            : new LineMatch(known.Count == 1 ? MatchState.PayerAlone : MatchState.SeveralFit, [.. known.Take(MostProposals)], gone);
    }

    /// <summary>All that a customer owes, where something else than the sum says that it is this one.</summary>
    private IEnumerable<MatchProposal> Together(OpenLine line, List<OpenInvoice> left) => left.GroupBy(one => one.Customer)
        .Where(group => group.Count() > 1 && group.Sum(one => one.Invoice.Owed) == line.Amount && Payer(line, group.First()).Count > 0)
        .Select(group => Share(line, group.Key, [.. group], [new(MatchReasonKind.AmountOwedTogether, ""), .. Payer(line, group.First())]));

    private static MatchProposal Share(OpenLine line, Guid customer, IReadOnlyList<OpenInvoice> invoices, IReadOnlyList<MatchReason> reasons) =>
        new(customer, ReceiptRules.Propose(line.Amount, invoices.Select(one => one.Invoice)), reasons);

    private static IEnumerable<MatchReason> Named(string number, IReadOnlyList<(string Number, bool ByReference)> inReference, IReadOnlyList<(string Number, bool ByReference)> inText)
    {
        if (inReference.Concat(inText).Any(one => one.Number == number && one.ByReference))
            yield return new MatchReason(MatchReasonKind.CreditorReference, number);
        else if (inReference.Any(one => one.Number == number))
            yield return new MatchReason(MatchReasonKind.NumberInReference, number);
        else
            yield return new MatchReason(MatchReasonKind.NumberInText, number);
    }

    private List<MatchReason> Payer(OpenLine line, OpenInvoice invoice)
    {
        var reasons = new List<MatchReason>();
        if (line.Iban.Length > 0 && seen[line.Iban].Contains(invoice.Customer))
            reasons.Add(new MatchReason(MatchReasonKind.AccountSeen, ""));
        if (invoice.Names.Any(name => NameLikeness.Are(line.Name, name)))
            reasons.Add(new MatchReason(MatchReasonKind.NameSimilar, ""));
        return reasons;
    }

    private List<string> SettledIn(OpenLine line) =>
        [.. settledNumbers.In(line.Reference).Concat(settledNumbers.In(line.Text)).Select(one => one.Number).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];

    private string SmallestNumber(MatchProposal way) =>
        open.Where(one => way.Shares.Any(share => share.InvoiceId == one.Invoice.Id)).Min(one => one.Invoice.Number) ?? "";
}
