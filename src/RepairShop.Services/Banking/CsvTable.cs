using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using RepairShop.Domain.Banking;
using RepairShop.Domain.Results;
using RepairShop.Services.Recordings;

namespace RepairShop.Services.Banking;

/// <param name="Line">In the file, from 1; where the row begins.</param>
/// <param name="Cells">As they stand, without blanks around them.</param>
public sealed record CsvRow(long Line, string[] Cells);

/// <summary>A bank's table before anybody has said what its columns mean: the head, and the rows below it.</summary>
/// <param name="Head">Words of the head; “Column 1” and so on where there is none.</param>
/// <param name="Rows"></param>
/// <param name="Account">An IBAN that stands above the table; empty without.</param>
/// <param name="Delimiter"></param>
public sealed record CsvTable(string[] Head, IReadOnlyList<CsvRow> Rows, string Account, char Delimiter)
{
    private const int LongestLine = 20_000, MostColumns = 60, TopRows = 60;

    private static readonly char[] Delimiters = [';', '\t', ',', '|'];

    private static readonly Encoding Windows1252 = CodePagesEncodingProvider.Instance.GetEncoding(1252)!;

    private static readonly UTF8Encoding StrictUtf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    public static Result<CsvTable> Read(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            var text = Decode(bytes.Span);
            if (text.Contains('\0', StringComparison.Ordinal))
                return new OtherFile("not text", "ask your bank for CAMT.053 (XML) or CSV.");
            return Best(text) is { } best ? Of(best.Delimiter, [.. Parse(text, best.Delimiter, StatementParts.MostLines + TopRows + 1).Select(Narrow)]) : new NoTable();
        }
        catch (RefusedException no)
        {
            return no.Refused;
        }
        catch (LineTooLongException @long)
        {
            return new RowTooLong(@long.Line);
        }
        catch (CsvHelperException odd)
        {
            return new RowTooLong(odd.Context?.Parser?.RawRow ?? 0);
        }
    }

    /// <summary>UTF-16 where its mark says so, UTF-8 where the bytes are, else Windows-1252, in which every byte is something.</summary>
    private static string Decode(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]))
            return Encoding.Unicode.GetString(bytes[2..]);
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
            return Encoding.BigEndianUnicode.GetString(bytes[2..]);
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
            bytes = bytes[3..];
        return System.Text.Unicode.Utf8.IsValid(bytes) ? StrictUtf8.GetString(bytes) : Windows1252.GetString(bytes);
    }

    /// <summary>The separator by which the most rows on top begin a table; among equals the one that makes more columns.</summary>
    private static (char Delimiter, int Columns)? Best(string text) => Delimiters
        .Select(delimiter => (Delimiter: delimiter, Top: Parse(text, delimiter, TopRows).ToList()))
        .Select(one => (one.Delimiter, Start: StartOf(one.Top), one.Top))
        .Where(one => one.Start >= 0)
        .Select(one => (one.Delimiter, Columns: one.Top[one.Start].Cells.Length, Rows: one.Top.Count(row => row.Cells.Length == one.Top[one.Start].Cells.Length)))
        .OrderByDescending(one => one.Rows).ThenByDescending(one => one.Columns).Select(one => ((char, int)?)(one.Delimiter, one.Columns)).FirstOrDefault();

    /// <summary>The first row with a day and an amount in cells of their own; −1 without.</summary>
    private static int StartOf(List<CsvRow> rows)
    {
        for (var at = 0; at < Math.Min(rows.Count, TopRows); at++)
        {
            var cells = rows[at].Cells;
            var day = Array.FindIndex(cells, cell => CsvValues.MayBeDay(cell));
            if (cells.Length >= 2 && day >= 0 && cells.Where((cell, i) => i != day && CsvValues.MayBeAmount(cell)).Any())
                return at;
        }

        return -1;
    }

    private static Result<CsvTable> Of(char delimiter, List<CsvRow> rows)
    {
        var start = StartOf(rows);
        if (start < 0)
            return new NoTable();
        var columns = rows[start].Cells.Length;
        // The head may end in a separator too many, or the rows may.
        var head = start > 0 && rows[start - 1].Cells.Length >= 2 && Math.Abs(rows[start - 1].Cells.Length - columns) <= 1 ? rows[start - 1].Cells : [];
        if (rows.Count - start > StatementParts.MostLines)
            return new TooManyEntries(StatementParts.MostLines);
        var account = rows.Take(start).SelectMany(row => row.Cells).Select(StatementParts.Account).FirstOrDefault(Domain.Shop.Iban.IsValid) ?? "";
        var names = Enumerable.Range(0, columns)
            .Select(i => i < head.Length && head[i].Length > 0 ? StatementParts.Text(head[i], 80) : string.Create(CultureInfo.InvariantCulture, $"Column {i + 1}"));
        return new CsvTable([.. names], rows[start..], account, delimiter);
    }

    /// <summary>Asked row by row, so that ten million separators do not become ten million cells first.</summary>
    private static CsvRow Narrow(CsvRow row) => row.Cells.Length <= MostColumns ? row : throw new RefusedException(new TooManyStatementColumns(row.Line, row.Cells.Length));

    private static IEnumerable<CsvRow> Parse(string text, char delimiter, int most)
    {
        var configuration = new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = delimiter.ToString(),
            HasHeaderRecord = false,
            BadDataFound = null,
            MaxFieldSize = LongestLine,
            IgnoreBlankLines = true,
            CacheFields = false,
        };
        using var parser = new CsvParser(new BoundedLines(new StringReader(text), LongestLine), configuration);
        var before = 0L;
        for (var rows = 0; rows < most && parser.Read(); rows++)
        {
            var line = before + 1;
            before = parser.RawRow;
            if (IsUnclosed(parser.RawRecord))
                throw new RefusedException(new QuoteUnclosed(line));
            yield return new CsvRow(line, [.. (parser.Record ?? []).Select(cell => cell.Trim())]);
        }
    }

    /// <summary>A quotation mark that opens a cell swallows what follows, to the end of the file.</summary>
    private static bool IsUnclosed(string raw) => raw.AsSpan().Count('"') % 2 == 1 && (raw.TrimEnd('\r', '\n').Contains('\n', StringComparison.Ordinal) || raw.TrimStart().StartsWith('"'));
}
