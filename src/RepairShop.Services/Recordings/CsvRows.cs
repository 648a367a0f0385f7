using System.Runtime.InteropServices;
using CsvHelper;
using RepairShop.Domain.Recordings;

namespace RepairShop.Services.Recordings;

/// <summary>The numbers of a table, line by line; the first line that is not like the others stops it.</summary>
/// <param name="layout">How they are written.</param>
/// <param name="lines">How many lines there are at most, so that nothing is copied while it grows.</param>
internal sealed class CsvRows(CsvLayout layout, int lines)
{
    private readonly List<double> times = new(Math.Min(lines, CsvTrace.MostRows));
    private List<float>[] values = [];

    public ReadOnlySpan<double> Times => CollectionsMarshal.AsSpan(times);

    public IReadOnlyList<List<float>> Values => values;

    /// <returns>Why the table is refused; null when it was read to its end.</returns>
    public FileRefused? ReadAll(CsvParser parser)
    {
        while (parser.Read())
        {
            if (Add(parser, layout.HeaderLines + parser.RawRow) is { } refused)
                return refused;
        }

        return times.Count < 3 ? new TooFewRows(times.Count) : null;
    }

    private FileRefused? Add(CsvParser parser, long line)
    {
        if (times.Count == CsvTrace.MostRows)
            return new TooManyRows(CsvTrace.MostRows);
        var columns = parser.Count;
        while (columns > 0 && string.IsNullOrWhiteSpace(parser[columns - 1]))
            columns--;
        if (columns == 0)
            return null;
        if (values.Length == 0 && Begin(columns, line) is { } unfit)
            return unfit;
        if (columns != values.Length + 1)
            return columns == 1 && !layout.TryNumber(parser[0], out _) ? new TextNotNumber(line, 1, parser[0]) : new ColumnsDiffer(line, columns, values.Length + 1);
        for (var column = 0; column < columns; column++)
        {
            if (Put(parser[column], column, line) is { } refused)
                return refused;
        }

        return times.Count > 1 && times[^1] < times[^2] ? new TimeGoesBack(line)
            : times[^1] - times[0] > RecordingReader.MostSeconds ? new TooLong(times[^1] - times[0])
            : null;
    }

    private FileRefused? Begin(int columns, long line)
    {
        if (columns < 2)
            return new NoValueColumn(line);
        if (columns - 1 > CsvTrace.MostValues)
            return new TooManyColumns(line, columns);
        values = [.. Enumerable.Range(1, columns - 1).Select(_ => new List<float>(times.Capacity))];
        return null;
    }

    private FileRefused? Put(string cell, int column, long line)
    {
        if (!layout.TryNumber(cell, out var number))
            return IsNotFinite(cell) ? new NotFinite($"Line {line}, column {column + 1}") : new TextNotNumber(line, column + 1, cell.Trim());
        if (!float.IsFinite((float)number))
            return new NotFinite($"Line {line}, column {column + 1}");
        if (column == 0)
            times.Add(number * layout.SecondsPerUnit);
        else
            values[column - 1].Add((float)number);
        return null;
    }

    private static bool IsNotFinite(string cell) =>
        cell.Trim().TrimStart('+', '-', '−').ToUpperInvariant() is "NAN" or "INF" or "INFINITY" or "∞" or "OVL" or "OVERFLOW" or "1.#INF" or "1.#QNAN";
}
