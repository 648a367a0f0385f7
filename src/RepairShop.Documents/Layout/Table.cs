namespace RepairShop.Documents.Layout;

/// <summary>A column as wide as its widest cell, or with a share of what is left.</summary>
/// <param name="Share">0 takes the natural width.</param>
/// <param name="Gap">Space before it.</param>
/// <param name="Least">Not narrower than this.</param>
internal readonly record struct Column(float Share, float Gap = 12, float Least = 0);

/// <summary>One row; a null cell is empty. A spanning row holds one block over all columns.</summary>
internal sealed record Row(IReadOnlyList<Block?> Cells)
{
    public bool Spans { get; init; }

    /// <summary>A sub-heading never stands last on a page.</summary>
    public bool KeepWithNext { get; init; }

    /// <summary>The hairline above.</summary>
    public bool Ruled { get; init; } = true;
}

/// <summary>Rows in columns with hairlines; the head is repeated on every page the table reaches.</summary>
internal sealed class Table(IReadOnlyList<Column> columns, Row? head, IReadOnlyList<Row> rows, uint lineColor, float padding = 3) : Block
{
    private const float Hairline = 0.5f;

    /// <summary>Widths found for the whole table, kept by its parts, so that columns do not jump from page to page.</summary>
    private float[]? _widths;
    private float _widthsFor;

    public override float Height(float width) => (head is null ? 0 : HeightOf(head, width)) + rows.Sum(row => HeightOf(row, width));

    public override float NaturalWidth
    {
        get
        {
            var width = columns.Skip(1).Sum(column => column.Gap);
            for (var i = 0; i < columns.Count; i++)
                width += rows.Where(row => !row.Spans).Select(row => row.Cells[i]?.NaturalWidth ?? 0).DefaultIfEmpty().Max();
            return width;
        }
    }

    public override float Baseline(float width) => head is null && rows.Count > 0 && !rows[0].Spans ? padding + Baseline(rows[0], Widths(width)) : 0;

    public override float LeastHeight(float width)
    {
        var height = head is null ? 0 : HeightOf(head, width);
        for (var i = 0; i < rows.Count; i++)
        {
            height += HeightOf(rows[i], width);
            if (!rows[i].KeepWithNext)
                break;
        }
        return height;
    }

    public override void Draw(Ink ink, float x, float y, float width)
    {
        foreach (var row in head is null ? rows : [head, .. rows])
        {
            if (row.Ruled && row != head)
                ink.Line(x, y, x + width, y, lineColor, Hairline);
            DrawRow(ink, row, x, y + (row == head ? 0 : padding), width);
            y += HeightOf(row, width);
        }
    }

    public override (Block? Head, Block? Tail) Split(float width, float height)
    {
        Widths(width);
        var left = height - (head is null ? 0 : HeightOf(head, width));
        var fit = 0;
        while (fit < rows.Count && HeightOf(rows[fit], width) <= left)
            left -= HeightOf(rows[fit++], width);
        if (fit == rows.Count)
            return (this, null);
        // One row alone on the next page is taken along with another, where there are enough.
        if (rows.Count - fit == 1 && fit > 2)
            fit--;
        while (fit > 0 && rows[fit - 1].KeepWithNext)
            fit--;
        return fit == 0 ? (null, this) : (Part(rows.Take(fit)), Part(rows.Skip(fit)));
    }

    private Table Part(IEnumerable<Row> part) => new(columns, head, [.. part], lineColor, padding) { _widths = _widths, _widthsFor = _widthsFor };

    private void DrawRow(Ink ink, Row row, float x, float y, float width)
    {
        if (row.Spans)
        {
            row.Cells[0]?.Draw(ink, x, y, width);
            return;
        }
        var widths = Widths(width);
        var baseline = Baseline(row, widths);
        for (var i = 0; i < columns.Count; i++)
        {
            x += i == 0 ? 0 : columns[i].Gap;
            row.Cells[i]?.Draw(ink, x, y + Drop(row, widths, i, baseline), widths[i]);
            x += widths[i];
        }
    }

    private static float Baseline(Row row, float[] widths)
    {
        var lowest = 0f;
        for (var i = 0; i < widths.Length; i++)
            lowest = Math.Max(lowest, row.Cells[i]?.Baseline(widths[i]) ?? 0);
        return lowest;
    }

    private static float Drop(Row row, float[] widths, int cell, float baseline) =>
        row.Cells[cell]?.Baseline(widths[cell]) is > 0 and var own ? baseline - own : 0;

    private float HeightOf(Row row, float width)
    {
        var edge = row == head ? padding : 2 * padding;
        if (row.Spans)
            return (row.Cells[0]?.Height(width) ?? 0) + edge;
        var widths = Widths(width);
        var height = 0f;
        var baseline = Baseline(row, widths);
        for (var i = 0; i < columns.Count; i++)
            height = Math.Max(height, (row.Cells[i]?.Height(widths[i]) ?? 0) + Drop(row, widths, i, baseline));
        return height + edge;
    }

    private float[] Widths(float width)
    {
        if (_widths is not null && _widthsFor == width)
            return _widths;
        var widths = new float[columns.Count];
        IReadOnlyList<Row> all = head is null ? rows : [head, .. rows];
        for (var i = 0; i < columns.Count; i++)
        {
            widths[i] = columns[i].Least;
            if (columns[i].Share == 0)
                foreach (var row in all)
                    if (!row.Spans)
                        widths[i] = Math.Max(widths[i], row.Cells[i]?.NaturalWidth ?? 0);
        }
        var free = width - widths.Where((_, i) => columns[i].Share == 0).Sum() - columns.Skip(1).Sum(column => column.Gap);
        var shares = columns.Sum(column => column.Share);
        for (var i = 0; i < columns.Count; i++)
            if (columns[i].Share > 0)
                widths[i] = Math.Max(Math.Max(24, columns[i].Least), free * columns[i].Share / shares);
        (_widths, _widthsFor) = (widths, width);
        return widths;
    }
}
