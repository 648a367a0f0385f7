using System.Globalization;
using System.Xml.Linq;
using RepairShop.Domain.Banking;

namespace RepairShop.Services.Banking;

/// <summary>One entry (Ntry) of a camt.053 and the transactions inside it.</summary>
internal static class CamtEntry
{
    /// <summary>A batch becomes one line a transaction where each says its amount and they come to the entry's; else one line.</summary>
    public static void Read(XElement entry, string place, string account, List<ReadLine> lines, List<string> warnings)
    {
        var (total, currency) = Amount(entry, place);
        var isCredit = IsCredit(entry, place);
        var status = entry.TextAt("Sts", "Cd") is { Length: > 0 } code ? code : entry.At("Sts") is { HasElements: false } plain ? plain.Value.Trim() : entry.TextAt("Sts", "Prtry");
        if (status.Length == 0)
            throw new RefusedException(new PartMissing(place, "the status (Sts)"));
        var valued = Day(entry.At("ValDt"), place);
        var whole = new ReadLine
        {
            Account = account,
            BookedOn = Day(entry.At("BookgDt"), place) ?? valued ?? throw new RefusedException(new PartMissing(place, "the day of booking (BookgDt)")),
            ValuedOn = valued,
            Amount = total,
            Currency = currency,
            IsCredit = isCredit,
            IsReversal = Truth(entry.TextAt("RvslInd")),
            IsPending = status != "BOOK",
            BankReference = Reference(entry.TextAt("AcctSvcrRef")),
            Text = StatementParts.Text(entry.TextAt("AddtlNtryInf"), BankLine.LongestText),
        };
        var transactions = entry.All("NtryDtls").SelectMany(details => details.All("TxDtls")).ToList();
        if (transactions.Count <= 1)
        {
            lines.Add(transactions.Count == 0 ? whole : With(whole, transactions[0]));
            return;
        }

        var parts = transactions.Select((one, i) => Part(whole, one, $"{place}, transaction {(i + 1).ToString(CultureInfo.InvariantCulture)}")).ToList();
        if (parts.TrueForAll(part => part is not null) && parts.Sum(part => part!.IsCredit == isCredit ? part.Amount : -part.Amount) == total)
        {
            lines.AddRange(parts.Select(part => part!));
            return;
        }

        warnings.Add($"{place} stands for {transactions.Count} payments whose amounts the bank does not give, or which do not come to the entry’s: it is kept as one line.");
        lines.Add(whole with { Text = StatementParts.Text(string.Join(" ", new[] { whole.Text }.Concat(transactions.Select(Remittance)).Where(text => text.Length > 0)), BankLine.LongestText) });
    }

    public static (decimal Value, string Currency) Amount(XElement parent, string place)
    {
        if (parent.At("Amt") is not { } element)
            throw new RefusedException(new PartMissing(place, "the amount (Amt)"));
        if (element.Attribute("Ccy")?.Value is not { } currency)
            throw new RefusedException(new PartMissing(place, "the currency of the amount (Ccy)"));
        if (currency.Length != 3 || !currency.All(char.IsAsciiLetterUpper))
            throw new RefusedException(new CurrencyUnreadable(place, currency));
        return (StatementParts.Amount(element.Value.Trim()) ?? throw new RefusedException(new AmountUnreadable(place, element.Value.Trim())), currency);
    }

    public static bool IsCredit(XElement parent, string place) => parent.TextAt("CdtDbtInd") switch
    {
        "CRDT" => true,
        "DBIT" => false,
        "" => throw new RefusedException(new PartMissing(place, "the direction (CdtDbtInd)")),
        var other => throw new RefusedException(new DirectionUnreadable(place, other)),
    };

    private static ReadLine? Part(ReadLine whole, XElement transaction, string place)
    {
        var holder = transaction.At("Amt") is not null ? transaction
            : transaction.At("AmtDtls", "TxAmt", "Amt") is not null ? transaction.At("AmtDtls", "TxAmt") : null;
        if (holder is null)
            return null;
        var (amount, currency) = Amount(holder, place);
        if (currency != whole.Currency)
            return null;
        var isCredit = transaction.At("CdtDbtInd") is null ? whole.IsCredit : IsCredit(transaction, place);
        return With(whole, transaction) with { Amount = amount, IsCredit = isCredit };
    }

    private static ReadLine With(ReadLine line, XElement transaction)
    {
        // Whoever stands on the other side. From version 08 on a party is wrapped in Pty (or Agt).
        var (party, ultimate, account) = line.IsCredit != line.IsReversal ? ("Dbtr", "UltmtDbtr", "DbtrAcct") : ("Cdtr", "UltmtCdtr", "CdtrAcct");
        var parties = transaction.At("RltdPties");
        var name = NameOf(parties?.At(party)) is { Length: > 0 } direct ? direct : NameOf(parties?.At(ultimate));
        var iban = parties?.TextAt(account, "Id", "IBAN") is { Length: > 0 } known ? known : parties?.TextAt(account, "Id", "Othr", "Id");
        var own = Reference(transaction.TextAt("Refs", "AcctSvcrRef"));
        var text = Remittance(transaction);
        return line with
        {
            Name = StatementParts.Text(name, BankLine.LongestName),
            Iban = StatementParts.Account(iban),
            Text = text.Length > 0 ? text : line.Text,
            Reference = StatementParts.Text(Structured(transaction), BankLine.LongestReference),
            BankReference = own.Length > 0 ? own : line.BankReference,
            EndToEndId = transaction.TextAt("Refs", "EndToEndId") is { } id && id != "NOTPROVIDED" ? Reference(id) : "",
        };
    }

    private static string NameOf(XElement? party) =>
        party is null ? "" : party.TextAt("Nm") is { Length: > 0 } plain ? plain : party.TextAt("Pty", "Nm") is { Length: > 0 } wrapped ? wrapped : party.TextAt("Agt", "FinInstnId", "Nm");

    /// <summary>Unstructured text; the additional words of a structured one; the bank's own words last.</summary>
    private static string Remittance(XElement transaction)
    {
        var info = transaction.At("RmtInf");
        var texts = info is null ? [] : info.All("Ustrd").Concat(info.All("Strd").SelectMany(one => one.All("AddtlRmtInf"))).Select(one => one.Value.Trim()).Where(text => text.Length > 0).ToList();
        return StatementParts.Text(texts.Count > 0 ? string.Join(" ", texts) : transaction.TextAt("AddtlTxInf"), BankLine.LongestText);
    }

    /// <summary>Creditor references and numbers of documents, each once.</summary>
    private static string Structured(XElement transaction) => string.Join("; ", (transaction.At("RmtInf")?.All("Strd") ?? [])
        .SelectMany(one => one.All("CdtrRefInf").Select(info => info.TextAt("Ref")).Concat(one.All("RfrdDocInf").Select(info => info.TextAt("Nb"))))
        .Where(text => text.Length > 0).Distinct(StringComparer.Ordinal));

    private static string Reference(string text) => StatementParts.Text(text, BankLine.LongestReference);

    private static bool Truth(string text) => text is "true" or "1";

    /// <summary>Dt, or the day of DtTm as the bank wrote it.</summary>
    private static DateOnly? Day(XElement? date, string place)
    {
        var text = date is null ? "" : date.TextAt("Dt") is { Length: > 0 } day ? day : date.TextAt("DtTm");
        if (text.Length == 0)
            return null;
        var isDay = DateOnly.TryParseExact(text.AsSpan(0, Math.Min(10, text.Length)), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var read);
        return isDay && StatementParts.IsUsual(read) && (text.Length == 10 || text[10] is 'T' or 'Z' or '+' or '-') ? read : throw new RefusedException(new DateUnreadable(place, text));
    }
}
