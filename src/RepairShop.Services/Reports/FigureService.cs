using Microsoft.EntityFrameworkCore;
using Npgsql;
using RepairShop.Documents.Charts;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Reports;

/// <summary>The owner's figures of a year or a month, and the papers behind each row. All are read from the journal and the book
/// as they stand; nothing is kept beside them.</summary>
public sealed class FigureService(ShopDb db, TimeProvider clock)
{
    /// <summary>So many rows are shown on one page; a file has them all.</summary>
    public const int OnPage = 500;

    private const int InOverview = 12;

    private static readonly FigureDefinition[] Definitions =
    [
        MoneyFigures.Revenue, MoneyFigures.Tax, MoneyFigures.Unpaid, WorkFigures.HoursSold, WorkFigures.Estimates, WorkFigures.Margin,
        HouseFigures.Stock, HouseFigures.InAndOut, HouseFigures.Turnaround,
    ];

    public async Task<DateOnly> TodayAsync(CancellationToken cancel) => (await ShopAsync(cancel)).Today(clock.GetUtcNow());

    /// <summary>All of them, long ones cut.</summary>
    public async Task<IReadOnlyList<Figure>> OverviewAsync(Period period, CancellationToken cancel)
    {
        var shop = await ShopAsync(cancel);
        var figures = new List<Figure>();
        foreach (var definition in Definitions)
            figures.Add(await ReadAsync(definition, shop, period, InOverview, cancel));
        return figures;
    }

    /// <summary>One figure; null when there is none of that name.</summary>
    public async Task<Figure?> OneAsync(string key, Period period, int limit, CancellationToken cancel) =>
        Find(key) is { } definition ? await ReadAsync(definition, await ShopAsync(cancel), period, limit, cancel) : null;

    /// <summary>The papers behind one row; null when there is no such figure or row.</summary>
    public async Task<Figure?> BehindAsync(string key, Period period, string row, int limit, CancellationToken cancel)
    {
        if (Find(key) is not { BehindSql: { } sql } definition)
            return null;
        if (definition.BySpan && Period.Read(row) is null)
            return null;
        var shop = await ShopAsync(cancel);
        var span = definition.BySpan ? Period.Read(row)! : period;
        var rows = await RowsAsync(sql, Values(shop, span, [], row, limit), cancel);
        var name = definition.BySpan ? span.Name
            : (await ReadAsync(definition, shop, period, int.MaxValue - 1, cancel)).Rows.FirstOrDefault(one => one.Key == row)?.Label;
        return name is null ? null : new Figure(
            definition.Key, $"{definition.Title}: {name}", definition.About, "Behind it", definition.BehindColumns, [.. rows.Take(limit)], rows.Count > limit, "");
    }

    private static FigureDefinition? Find(string key) => Definitions.FirstOrDefault(one => one.Key == key);

    private async Task<Figure> ReadAsync(FigureDefinition definition, ShopSettings shop, Period period, int limit, CancellationToken cancel)
    {
        var spans = period.Spans(shop.Today(clock.GetUtcNow()));
        var rows = await RowsAsync(definition.Sql, Values(shop, period, spans, "", limit), cancel);
        if (definition.BySpan)
            rows = rows.ConvertAll(row => row with { Label = Period.Read(row.Key)!.Name });
        var shown = rows.Take(definition.BySpan ? rows.Count : limit).ToList();
        return new Figure(
            definition.Key, definition.Title, definition.About, definition.RowName, definition.Columns, shown, rows.Count > shown.Count, Svg(definition, shown, shop));
    }

    private static string Svg(FigureDefinition definition, List<FigureRow> rows, ShopSettings shop)
    {
        var drawn = definition.Columns.Select((column, index) => (column, index)).Where(one => one.column.Bar is not null).ToList();
        var bars = rows.Take(InOverview).Select(row => new BarRow(
            row.Label, [.. drawn.Select(one => ((double?)row.Values[one.index], FigureWriting.Text(row.Values[one.index], one.column.Unit, shop.Currency)))])).ToList();
        return BarsChart.Draw(definition.Title, [.. drawn.Select(one => one.column.Bar!)], bars) is { } drawing
            ? ChartSvg.Write(drawing, definition.Key + "-chart")
            : "";
    }

    private (string Name, object Value)[] Values(ShopSettings shop, Period period, IReadOnlyList<Period> spans, string row, int limit)
    {
        DateTimeOffset Start(DateOnly day) => shop.EndOf(day.AddDays(-1));
        return
        [
            ("keys", spans.Select(span => span.Key).ToArray()), ("froms", spans.Select(span => span.From).ToArray()), ("untils", spans.Select(span => span.Until).ToArray()),
            ("from_ats", spans.Select(span => Start(span.From)).ToArray()), ("until_ats", spans.Select(span => Start(span.Until)).ToArray()),
            ("from", period.From), ("until", period.Until), ("from_at", Start(period.From)), ("until_at", Start(period.Until)),
            ("currency", shop.Currency), ("digits", Amount.Digits(shop.Currency)), ("today", shop.Today(clock.GetUtcNow())), ("row", row), ("limit", limit + 1),
        ];
    }

    private async Task<List<FigureRow>> RowsAsync(string sql, (string Name, object Value)[] values, CancellationToken cancel)
    {
        await db.Database.OpenConnectionAsync(cancel);
        try
        {
            await using var command = ((NpgsqlConnection)db.Database.GetDbConnection()).CreateCommand();
            command.CommandText = sql;
            foreach (var (name, value) in values.Where(value => sql.Contains("@" + value.Name, StringComparison.Ordinal)))
                command.Parameters.AddWithValue(name, value);
            await using var reader = await command.ExecuteReaderAsync(cancel);
            var rows = new List<FigureRow>();
            while (await reader.ReadAsync(cancel))
                rows.Add(Row(reader));
            return rows;
        }
        finally
        {
            await db.Database.CloseConnectionAsync();
        }
    }

    private static FigureRow Row(NpgsqlDataReader reader) => new(
        reader.GetString(0), reader.GetString(1), reader.IsDBNull(2) ? null : reader.GetString(2), reader.IsDBNull(3) ? null : reader.GetGuid(3),
        [.. Enumerable.Range(4, reader.FieldCount - 4).Select(column => reader.IsDBNull(column) ? (decimal?)null : Math.Round(reader.GetDecimal(column), 4, MidpointRounding.AwayFromZero))]);

    private Task<ShopSettings> ShopAsync(CancellationToken cancel) => db.Shop.AsNoTracking().SingleAsync(cancel);
}
