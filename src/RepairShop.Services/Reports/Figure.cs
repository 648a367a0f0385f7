namespace RepairShop.Services.Reports;

/// <summary>One of the owner's figures as a table, with its chart.</summary>
/// <param name="Key">In addresses.</param>
/// <param name="Title"></param>
/// <param name="About">What is counted, in a sentence.</param>
/// <param name="RowName">What a row is.</param>
/// <param name="Columns"></param>
/// <param name="Rows"></param>
/// <param name="IsCut">There are more rows than these.</param>
/// <param name="Svg">The chart; empty where there is nothing to draw.</param>
public sealed record Figure(
    string Key, string Title, string About, string RowName, IReadOnlyList<FigureColumn> Columns, IReadOnlyList<FigureRow> Rows, bool IsCut, string Svg)
{
    public bool HasTotal => Rows.Count > 1 && Columns.Any(column => column.AddsUp);

    /// <summary>Null where adding up would mean nothing.</summary>
    public decimal? Total(int column) => Columns[column].AddsUp ? Rows.Sum(row => row.Values[column] ?? 0) : null;
}

/// <param name="Name"></param>
/// <param name="Unit"></param>
/// <param name="AddsUp">The rows' sum says something.</param>
/// <param name="Bar">Its name in the chart; null when it is not drawn. Two columns at most are.</param>
public sealed record FigureColumn(string Name, FigureUnit Unit, bool AddsUp = true, string? Bar = null);

public enum FigureUnit
{
    Money,
    Hours,
    Count,
    Days,
    Percent,
}

/// <param name="Key">In addresses; the papers behind the row are found by it.</param>
/// <param name="Label"></param>
/// <param name="Repair">Number of the repair the row is about; null for none.</param>
/// <param name="PartId">The part the row is about.</param>
/// <param name="Values">One for each column.</param>
public sealed record FigureRow(string Key, string Label, string? Repair, Guid? PartId, IReadOnlyList<decimal?> Values);

/// <summary>How a figure is read. Both questions give key, label, repair, part and then the columns.</summary>
/// <param name="Key"></param>
/// <param name="Title"></param>
/// <param name="About"></param>
/// <param name="RowName">What a row is; a month where <paramref name="BySpan"/>.</param>
/// <param name="BySpan">One row for each month compared.</param>
/// <param name="Columns"></param>
/// <param name="Sql"></param>
/// <param name="BehindColumns"></param>
/// <param name="BehindSql">What stands behind one row; null where the row itself leads to its repair.</param>
internal sealed record FigureDefinition(
    string Key, string Title, string About, string RowName, bool BySpan, IReadOnlyList<FigureColumn> Columns, string Sql,
    IReadOnlyList<FigureColumn> BehindColumns, string? BehindSql)
{
    /// <summary>The months compared, in their order.</summary>
    public const string Spans = "with s as (select * from unnest(@keys, @froms, @untils, @from_ats, @until_ats) with ordinality as s(key, f, u, f_at, u_at, n)) ";

    /// <summary>A repair as a row: its number, camera and customer.</summary>
    public const string RepairRow = "r.number, r.number || ' · ' || concat_ws(' ', c.maker, c.model) || ' · ' || k.name, r.number, null::uuid";
}
