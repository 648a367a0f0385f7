using System.Globalization;

namespace RepairShop.Domain.StripDown;

/// <summary>A tray with rows and columns of cells, in which the parts of one repair lie.</summary>
public sealed class Tray
{
    public const int MostRows = 20;

    public const int MostColumns = 20;

    public Guid Id { get; set; } = Guid.CreateVersion7();

    public Guid RepairId { get; set; }

    /// <summary>What is written on it: 1, lid, magnetic.</summary>
    public string Name { get; set; } = "";

    public int Rows { get; set; }

    public int Columns { get; set; }

    public int Position { get; set; }

    public DateTimeOffset MadeAt { get; set; }

    public uint Version { get; set; }

    public bool Holds(TrayCell cell) => cell.Row <= Rows && cell.Column <= Columns;

    /// <summary>The first free cell behind <paramref name="last"/>, row by row, then from the start; null when all are taken.</summary>
    public TrayCell? NextFree(IReadOnlySet<TrayCell> taken, TrayCell? last)
    {
        ArgumentNullException.ThrowIfNull(taken);
        var cells = Rows * Columns;
        var from = last is { } cell && Holds(cell) ? ((cell.Row - 1) * Columns) + cell.Column : 0;
        for (var step = 0; step < cells; step++)
        {
            var at = (from + step) % cells;
            var candidate = new TrayCell((at / Columns) + 1, (at % Columns) + 1);
            if (!taken.Contains(candidate))
                return candidate;
        }

        return null;
    }
}

/// <summary>A cell by row and column, both from 1, written as on a map: B3 is the third of the second row.</summary>
public readonly record struct TrayCell(int Row, int Column)
{
    public static TrayCell? Parse(string typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        var text = typed.Replace(" ", "", StringComparison.Ordinal).ToUpperInvariant();
        return text.Length > 1 && text[0] is >= 'A' and <= 'Z'
            && int.TryParse(text.AsSpan(1), NumberStyles.None, CultureInfo.InvariantCulture, out var column) && column is > 0 and < 100
            ? new TrayCell(text[0] - 'A' + 1, column)
            : null;
    }

    public static string RowName(int row) => ((char)('A' + row - 1)).ToString();

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{RowName(Row)}{Column}");
}
