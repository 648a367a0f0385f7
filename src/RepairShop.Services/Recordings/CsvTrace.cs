using System.Text;
using CsvHelper;
using RepairShop.Domain.Recordings;
using RepairShop.Domain.Results;
using RepairShop.Measurement.Signals;

namespace RepairShop.Services.Recordings;

/// <summary>
/// Reads an oscilloscope's CSV with CsvHelper: lines of text on top, then time and one or more values. The rate comes from the time column; a
/// trace whose times are not even is brought to an even grid, or refused where too much is missing.
/// </summary>
internal static class CsvTrace
{
    public const int MostRows = 5_000_000, MostValues = 8;

    public static Result<Recording> Read(Stream file)
    {
        try
        {
            // Counting line ends is quick; reading numbers until there are too many is not.
            var lines = LineEnds(file);
            if (lines > MostRows + CsvLayout.MostHeaderLines)
                return new TooManyRows(MostRows);
            file.Position = 0;
            var top = Top(file);
            var layout = CsvLayout.Of(top, out var oneColumn);
            if (layout is null)
                return oneColumn is { } line ? new NoValueColumn(line) : new NoNumbers();
            file.Position = 0;
            using var text = Text(file);
            for (var i = 0; i < layout.HeaderLines; i++)
                text.ReadLine();
            using var parser = new CsvParser(new BoundedLines(text, CsvLayout.LongestLine), layout.Configuration());
            var rows = new CsvRows(layout, (int)lines + 1);
            return rows.ReadAll(parser) is { } refused ? refused : EvenGrid.Of(rows.Times, rows.Values, layout.HeaderLines);
        }
        catch (LineTooLongException @long)
        {
            return new LineTooLong(@long.Line);
        }
        catch (CsvHelperException odd)
        {
            return odd is MaxFieldSizeException ? new LineTooLong(odd.Context?.Parser?.RawRow ?? 0) : new DecoderRefused(odd.Message.Split('\n')[0]);
        }
    }

    private static long LineEnds(Stream file)
    {
        var buffer = new byte[1 << 16];
        var lines = 0L;
        while (lines <= MostRows + CsvLayout.MostHeaderLines && file.Read(buffer) is var got && got > 0)
            lines += buffer.AsSpan(0, got).Count((byte)'\n');
        return lines;
    }

    /// <summary>UTF-8, or UTF-16 where the file says so; left open.</summary>
    private static StreamReader Text(Stream file) => new(file, Encoding.UTF8, detectEncodingFromByteOrderMarks: true, 1 << 16, leaveOpen: true);

    private static List<string> Top(Stream file)
    {
        using var text = new BoundedLines(Text(file), CsvLayout.LongestLine);
        var lines = new List<string>();
        var line = new StringBuilder();
        var buffer = new char[4096];
        while (lines.Count <= CsvLayout.MostHeaderLines + 20 && text.Read(buffer) is var got && got > 0)
        {
            foreach (var letter in buffer.AsSpan(0, got))
            {
                if (letter != '\n')
                {
                    line.Append(letter);
                    continue;
                }

                lines.Add(line.ToString().TrimEnd('\r'));
                line.Clear();
            }
        }

        if (line.Length > 0)
            lines.Add(line.ToString().TrimEnd('\r'));
        return lines;
    }
}
