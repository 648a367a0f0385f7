using System.Globalization;
using System.Text;

namespace RepairShop.Services.Banking;

/// <summary>A first guess at what a table's columns mean, from the words of its head and from what stands below; a person says the rest.</summary>
public static class CsvGuess
{
    private const int Looked = 200;

    // Words of heads as banks of several countries write them (common practice), most telling first.
    private static readonly string[] DateWords = ["bookingdate", "buchungstag", "buchungsdatum", "datecomptable", "dateoperation", "boekdatum", "transactiondate", "posted", "booked", "datum", "date", "fecha", "data"];
    private static readonly string[] ValuedWords = ["valuedate", "valuta", "wertstellung", "datevaleur", "rentedatum", "valor"];
    private static readonly string[] AmountWords = ["amount", "betrag", "umsatz", "montant", "bedrag", "importe", "importo", "belopp", "value"];
    private static readonly string[] InWords = ["credit", "moneyin", "paidin", "gutschrift", "haben", "kredit", "bij", "deposit", "in"];
    private static readonly string[] OutWords = ["debit", "moneyout", "paidout", "lastschrift", "soll", "belastung", "af", "withdrawal", "out"];
    private static readonly string[] DirectionWords = ["creditdebit", "debitcredit", "crdr", "drcr", "sollhaben", "habensoll", "afbij", "bijaf", "cdtdbtind", "direction", "sign", "sens", "type"];
    private static readonly string[] CurrencyWords = ["currency", "wahrung", "waehrung", "devise", "munt", "valutakod", "ccy", "moneda"];
    private static readonly string[] NameWords = ["counterparty", "payer", "auftraggeber", "zahlungspflichtiger", "beguenstigter", "begunstigter", "name", "tegenpartij", "naam", "contrepartie", "nom", "from", "partner"];
    private static readonly string[] IbanWords = ["counterpartyiban", "counterpartyaccount", "payeraccount", "iban", "kontonummer", "tegenrekening", "accountnumber", "compte", "account"];
    private static readonly string[] TextWords = ["remittance", "verwendungszweck", "zweck", "description", "details", "communication", "mededeling", "omschrijving", "buchungstext", "narrative", "message", "text", "memo", "libelle", "concept"];
    private static readonly string[] ReferenceWords = ["creditorreference", "structuredreference", "paymentreference", "reference", "referenz", "structured", "betalingskenmerk"];
    private static readonly string[] BankReferenceWords = ["bankreference", "transactionid", "transactionreference", "entryreference", "bankreferenz", "id"];

    public static StatementColumns Of(CsvTable table)
    {
        var heads = table.Head.Select(Plain).ToArray();
        var rows = table.Rows.Take(Looked).ToList();
        var taken = new HashSet<int>();
        int? Find(string[] words, Func<string, bool> fits)
        {
            var at = words.Select(word => FindHead(heads, taken, word, column => Fits(rows, column, fits))).FirstOrDefault(found => found is not null);
            if (at is { } column)
                taken.Add(column);
            return at;
        }

        var direction = Find(DirectionWords, cell => CsvLines.Direction(cell) is not null);
        var bankReference = Find(BankReferenceWords, _ => true);
        var valued = Find(ValuedWords, CsvValues.MayBeDay);
        var date = Find(DateWords, CsvValues.MayBeDay) ?? ByContent(rows, taken, CsvValues.MayBeDay, table.Head.Length);
        var amount = Find(AmountWords, CsvValues.MayBeAmount);
        var moneyIn = amount is null ? Find(InWords, CsvValues.MayBeAmount) : null;
        var moneyOut = moneyIn is null ? null : Find(OutWords, CsvValues.MayBeAmount);
        if (amount is null && moneyIn is null)
            amount = ByContent(rows, taken, CsvValues.MayBeAmount, table.Head.Length);
        return new StatementColumns
        {
            Date = date,
            Valued = valued,
            Amount = amount,
            MoneyIn = moneyIn,
            MoneyOut = moneyOut,
            Direction = direction,
            Currency = Find(CurrencyWords, cell => cell.Length == 3),
            Iban = Find(IbanWords, Domain.Shop.Iban.IsValid),
            Name = Find(NameWords, cell => !CsvValues.MayBeDay(cell)),
            BankReference = bankReference,
            Reference = Find(ReferenceWords, _ => true),
            Text = Find(TextWords, _ => true),
            DecimalComma = HasDecimalComma(rows, new[] { amount, moneyIn, moneyOut }, table.Delimiter),
            MonthFirst = date is { } day && rows.All(row => CellOf(row, day).Length == 0 || CsvValues.Day(CellOf(row, day), true) is not null)
                && rows.Any(row => CellOf(row, day).Length > 0 && CsvValues.Day(CellOf(row, day), false) is null),
        };
    }

    /// <summary>Beginning with the word goes before holding it.</summary>
    private static int? FindHead(string[] heads, HashSet<int> taken, string word, Func<int, bool> fits)
    {
        var open = Enumerable.Range(0, heads.Length).Where(column => !taken.Contains(column) && fits(column)).ToList();
        var exact = open.Where(column => heads[column] == word);
        var begins = open.Where(column => heads[column].StartsWith(word, StringComparison.Ordinal) && word.Length > 3);
        var holds = open.Where(column => heads[column].Contains(word, StringComparison.Ordinal) && word.Length > 3);
        return exact.Concat(begins).Concat(holds).Select(column => (int?)column).FirstOrDefault();
    }

    private static bool Fits(List<CsvRow> rows, int column, Func<string, bool> fits)
    {
        var cells = rows.Select(row => CellOf(row, column)).Where(cell => cell.Length > 0).ToList();
        return cells.Count == 0 || cells.Count(fits) * 2 > cells.Count;
    }

    private static int? ByContent(List<CsvRow> rows, HashSet<int> taken, Func<string, bool> fits, int columns)
    {
        var found = Enumerable.Range(0, columns).Where(column => !taken.Contains(column) && rows.Any(row => CellOf(row, column).Length > 0) && Fits(rows, column, fits))
            .Select(column => (int?)column).FirstOrDefault();
        if (found is { } at)
            taken.Add(at);
        return found;
    }

    /// <summary>The last sign of an amount with two kinds parts the decimals; so does one not followed by three digits.</summary>
    private static bool HasDecimalComma(List<CsvRow> rows, IEnumerable<int?> columns, char delimiter)
    {
        var cells = columns.Where(column => column is not null).SelectMany(column => rows.Select(row => CellOf(row, column!.Value))).Where(cell => cell.Length > 0).ToList();
        var comma = cells.Count(cell => CsvValues.Amount(cell, ',') is not null && CsvValues.Amount(cell, '.') is null);
        var point = cells.Count(cell => CsvValues.Amount(cell, '.') is not null && CsvValues.Amount(cell, ',') is null);
        return comma != point ? comma > point : delimiter == ';' && !cells.Exists(cell => cell.Contains('.', StringComparison.Ordinal));
    }

    private static string CellOf(CsvRow row, int column) => column < row.Cells.Length ? row.Cells[column] : "";

    private static string Plain(string head) => string.Concat(head.Normalize(NormalizationForm.FormD).ToLowerInvariant()
        .Where(letter => char.IsAsciiLetterOrDigit(letter) && char.GetUnicodeCategory(letter) != UnicodeCategory.NonSpacingMark));
}
