using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml;
using System.Xml.Linq;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Results;

namespace RepairShop.Services.Banking;

/// <summary>
/// Reads the bank-to-customer statement camt.053 of ISO 20022, versions 001.02 to 001.13, which differ in where a party's name and a
/// status stand. Elements are read one at a time; anything not needed is passed over.
/// </summary>
public static partial class CamtReader
{
    private const int LeastVersion = 2, MostVersion = 13;

    [GeneratedRegex(@"^urn:iso:std:iso:20022:tech:xsd:(?<message>[a-z]{4}\.\d{3})\.001\.(?<version>\d{2})$", RegexOptions.CultureInvariant)]
    private static partial Regex Namespace();

    public static Result<ReadStatement> Read(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            using var stream = new MemoryStream(bytes.ToArray(), writable: false);
            using var reader = XmlReader.Create(stream, CamtElements.Settings);
            return ReadAll(reader);
        }
        catch (RefusedException no)
        {
            return no.Refused;
        }
        catch (XmlException broken)
        {
            return new XmlBroken(broken.LineNumber, broken.LinePosition);
        }
        catch (Exception odd) when (odd is ArgumentException or NotSupportedException or InvalidOperationException or System.Text.DecoderFallbackException)
        {
            return new XmlBroken(1, 1); // an encoding named on top that there is not
        }
    }

    private static ReadStatement ReadAll(XmlReader reader)
    {
        Begin(reader);
        Accept(reader.NamespaceURI);
        var statements = new List<ReadStatement>();
        var lines = new List<ReadLine>();
        while (!reader.EOF)
        {
            if (reader is { NodeType: XmlNodeType.Element, LocalName: "Stmt" })
                statements.Add(Statement(reader, lines));
            else if (!reader.Read())
                break;
            if (reader.Depth > CamtElements.Deepest)
                throw new RefusedException(new XmlTooDeep(CamtElements.Line(reader)));
        }

        if (statements.Count == 0)
            throw new RefusedException(new NoStatementInside());
        var accounts = statements.Select(one => (one.Account, one.Currency)).Distinct().ToList();
        return new ReadStatement(
            StatementParts.Text(string.Join(", ", accounts.Select(one => one.Account)), 200), accounts.Count == 1 ? accounts[0].Currency : "",
            StatementParts.Text(string.Join(", ", statements.Select(one => one.Number).Where(number => number.Length > 0)), 200),
            accounts.Count == 1 ? statements[0].Opening : null, accounts.Count == 1 ? statements[^1].Closing : null,
            lines, [.. statements.SelectMany(one => one.Warnings)]);
    }

    /// <summary>To the outermost element. The reader's refusal of a document type is told apart by its words alone, and says no line.</summary>
    private static void Begin(XmlReader reader)
    {
        try
        {
            reader.MoveToContent();
        }
        catch (XmlException prohibited) when (prohibited.Message.Contains("DTD", StringComparison.Ordinal))
        {
            throw new RefusedException(new XmlDeclaresEntities());
        }
    }

    private static void Accept(string name)
    {
        var match = Namespace().Match(name);
        var message = match.Success ? match.Groups["message"].Value : "";
        var version = match.Success ? int.Parse(match.Groups["version"].Value, CultureInfo.InvariantCulture) : 0;
        if (message == "camt.053" && version is >= LeastVersion and <= MostVersion)
            return;
        throw new RefusedException(message switch
        {
            "camt.053" => new OtherXml($"camt.053.001.{version:00}", "versions 02 to 13 are read."),
            "camt.052" => new OtherXml("camt.052", "that is what the day has brought so far; ask the bank for camt.053, the statement of what is booked."),
            "camt.054" => new OtherXml("camt.054", "that is a notice of single payments; ask the bank for camt.053, the whole statement."),
            _ => new OtherXml(name.Length == 0 ? "without a namespace" : name, "ask the bank for camt.053."),
        });
    }

    /// <summary>From the element Stmt to its end; the reader then stands behind it.</summary>
    private static ReadStatement Statement(XmlReader reader, List<ReadLine> lines)
    {
        var (account, accountCurrency, number, told) = ("", "", "", -1);
        decimal? opening = null, closing = null;
        var (first, entries) = (lines.Count, 0);
        var warnings = new List<string>();
        var depth = reader.Depth;
        var isEmpty = reader.IsEmptyElement;
        reader.Read();
        while (!isEmpty && !reader.EOF && reader.Depth > depth)
        {
            if (reader.NodeType != XmlNodeType.Element)
            {
                reader.Read();
                continue;
            }

            switch (CamtElements.Take(reader))
            {
                case { Name.LocalName: "Id" } id:
                    number = id.Value.Trim();
                    break;
                case { Name.LocalName: "Acct" } acct:
                    account = StatementParts.Account(acct.TextAt("Id", "IBAN") is { Length: > 0 } iban ? iban : acct.TextAt("Id", "Othr", "Id"));
                    accountCurrency = acct.TextAt("Ccy");
                    break;
                case { Name.LocalName: "Bal" } balance:
                    Balance(balance, ref opening, ref closing, ref accountCurrency);
                    break;
                case { Name.LocalName: "TxsSummry" } summary:
                    told = int.TryParse(summary.TextAt("TtlNtries", "NbOfNtries"), NumberStyles.None, CultureInfo.InvariantCulture, out var count) ? count : -1;
                    break;
                case { Name.LocalName: "Ntry" } entry:
                    entries++;
                    CamtEntry.Read(entry, $"Entry {(first + entries).ToString(CultureInfo.InvariantCulture)}", account, lines, warnings);
                    if (lines.Count > StatementParts.MostLines)
                        throw new RefusedException(new TooManyEntries(StatementParts.MostLines));
                    break;
            }
        }

        if (account.Length == 0)
            throw new RefusedException(new PartMissing($"Statement {number}".TrimEnd(), "the account (Acct/Id)"));
        if (told >= 0 && told != entries)
            warnings.Insert(0, $"The statement of {account} says it has {told} entries, but {entries} are in the file. Ask the bank for the days again.");
        if (StatementParts.BalanceWarning(account, accountCurrency, opening, closing, lines.Skip(first)) is { } unfit)
            warnings.Insert(0, unfit);
        // Some banks write the account behind the entries.
        for (var i = first; i < lines.Count; i++)
            lines[i] = lines[i] with { Account = account };
        return new ReadStatement(account, accountCurrency.Length is 3 ? accountCurrency : "", number, opening, closing, [], warnings);
    }

    /// <summary>Codes of ISO 20022's balance types: OPBD opening booked, PRCD the closing of the day before, CLBD closing booked.</summary>
    private static void Balance(XElement balance, ref decimal? opening, ref decimal? closing, ref string currency)
    {
        var type = balance.TextAt("Tp", "CdOrPrtry", "Cd");
        if (type is not ("OPBD" or "PRCD" or "CLBD"))
            return;
        var place = $"Balance {type}";
        var amount = CamtEntry.Amount(balance, place);
        var signed = CamtEntry.IsCredit(balance, place) ? amount.Value : -amount.Value;
        if (currency.Length == 0)
            currency = amount.Currency;
        if (type == "CLBD")
            closing = signed;
        else if (type == "OPBD" || opening is null)
            opening = signed;
    }
}
