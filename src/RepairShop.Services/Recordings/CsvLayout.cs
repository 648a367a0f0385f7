using System.Globalization;
using System.Text.RegularExpressions;
using CsvHelper;
using CsvHelper.Configuration;

namespace RepairShop.Services.Recordings;

/// <summary>How an oscilloscope's table is written: what parts its columns, what its decimals, in which unit its time is.</summary>
/// <param name="Delimiter">Comma, semicolon or tab.</param>
/// <param name="DecimalComma">Whether numbers are written 0,5.</param>
/// <param name="SecondsPerUnit">1 for seconds, 0.001 for milliseconds.</param>
/// <param name="HeaderLines">Lines before the first line of numbers.</param>
internal sealed partial record CsvLayout(string Delimiter, bool DecimalComma, double SecondsPerUnit, int HeaderLines)
{
    public const int MostHeaderLines = 100;

    /// <summary>A quoted cell that never ends, or a table without line ends, is no trace.</summary>
    public const int LongestLine = 20_000;

    // "Time (ms)", "t/µs", "ms" alone. A µ of an older alphabet comes out as the sign for a letter that could not be read.
    [GeneratedRegex(@"(?:^|[\s/,_\(\[])(s|sec|seconds?|ms|us|µs|μs|\uFFFDs|ns)[\)\]]?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Unit();

    /// <summary>Found from the top of the file; null when no line there holds two numbers or more.</summary>
    /// <param name="top">The first lines, as they stand.</param>
    /// <param name="oneColumn">The first line that is a single number, counted from 1; null without.</param>
    public static CsvLayout? Of(IReadOnlyList<string> top, out int? oneColumn)
    {
        oneColumn = null;
        for (var line = 0; line < Math.Min(top.Count, MostHeaderLines + 1); line++)
        {
            foreach (var (delimiter, comma) in new[] { ("\t", false), ("\t", true), (";", false), (";", true), (",", false), (",", true) })
            {
                if (AreNumbers(top[line], delimiter, comma))
                    return new CsvLayout(delimiter, comma || CommaLater(top, line, delimiter), UnitOf(top.Take(line), delimiter), line);
            }

            if (oneColumn is null && TryNumber(top[line].Trim(), false, out _))
                oneColumn = line + 1;
        }

        return null;
    }

    public CsvConfiguration Configuration() => ConfigurationOf(Delimiter);

    public bool TryNumber(string text, out double value) => TryNumber(text, DecimalComma, out value);

    /// <summary>A first line of whole numbers does not show the decimal sign; the lines below it do.</summary>
    private static bool CommaLater(IReadOnlyList<string> top, int from, string delimiter) =>
        delimiter != "," && top.Skip(from).Any(line => line.Contains(',', StringComparison.Ordinal)) && top.Skip(from).All(line => !line.Contains('.', StringComparison.Ordinal));

    private static bool AreNumbers(string line, string delimiter, bool comma)
    {
        var cells = Cells(line, delimiter);
        while (cells.Count > 0 && string.IsNullOrWhiteSpace(cells[^1]))
            cells.RemoveAt(cells.Count - 1);
        return cells.Count > 1 && cells.TrueForAll(cell => TryNumber(cell, comma, out _));
    }

    private static List<string> Cells(string line, string delimiter)
    {
        using var parser = new CsvParser(new StringReader(line), ConfigurationOf(delimiter));
        return parser.Read() ? [.. parser.Record ?? []] : [];
    }

    private static CsvConfiguration ConfigurationOf(string delimiter) => new(CultureInfo.InvariantCulture)
    {
        Delimiter = delimiter,
        HasHeaderRecord = false,
        BadDataFound = null,
        MaxFieldSize = LongestLine,
        IgnoreBlankLines = true,
        TrimOptions = TrimOptions.None,
    };

    private static bool TryNumber(string text, bool comma, out double value)
    {
        value = 0;
        var cell = text.AsSpan().Trim();
        if (comma)
        {
            if (cell.Contains('.'))
                return false;
            return double.TryParse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out value) && IsWritten(cell);
        }

        return double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && IsWritten(cell);
    }

    /// <summary>"NaN" and "Infinity" are words here: a cell of digits that overflows is the caller's to refuse.</summary>
    private static bool IsWritten(ReadOnlySpan<char> cell) => cell.Length > 0 && cell.IndexOfAnyInRange('0', '9') >= 0;

    /// <summary>The unit at the end of a first cell on top, the lowest such line; seconds without one.</summary>
    private static double UnitOf(IEnumerable<string> header, string delimiter)
    {
        var found = "s";
        foreach (var line in header)
        {
            if (Unit().Match(Cells(line, delimiter).FirstOrDefault()?.Trim() ?? "") is { Success: true } named)
                found = named.Groups[1].Value;
        }

        return found.ToLowerInvariant() switch { "ms" => 1e-3, "us" or "µs" or "μs" or "\uFFFDs" => 1e-6, "ns" => 1e-9, _ => 1 };
    }
}
