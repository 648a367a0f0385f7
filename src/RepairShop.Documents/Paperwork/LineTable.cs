using RepairShop.Documents.Layout;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>Lines of work and goods, labour apart from parts, figures under each other.</summary>
internal static class LineTable
{
    public static Table Of(Composer c, InvoiceFacts facts)
    {
        var f = c.Formats;
        var taxed = facts.Lines.Any(line => line.TaxPercent is not null);
        var lines = facts.Lines.OrderBy(line => line.Group).ToList();
        var quantities = c.OnThePoint(lines.Select(line => f.Quantity(line.Quantity)));
        var prices = c.OnThePoint(lines.Select(line => f.UnitPrice(line.UnitPrice)));
        var rows = Grouped(c, lines, line => line.Group, (line, i) =>
        [
            What(c, line.Text, line.PartNumber, line.Provenance, ChangeOf(c, line)),
            Figure(c, quantities[i]),
            c.Text(line.Unit, Composer.Body),
            Figure(c, prices[i]),
            taxed ? Figure(c, line.TaxPercent is { } percent ? f.Percent(percent) : "–") : null,
            Figure(c, f.Amount(line.Amount)),
        ]);
        var head = Head(c, "", "Quantity", "Unit", "Price", taxed ? "Tax" : "", $"Amount, {facts.Currency}");
        return new Table([new Column(1), new Column(0), new Column(0, 6), new Column(0), new Column(0, taxed ? 12 : 0), new Column(0)], head, rows, Palette.Line);
    }

    /// <param name="c">The house style.</param>
    /// <param name="facts">The estimate.</param>
    /// <param name="sums">Columns of the totals below, so that low stands over low and high over high.</param>
    public static Table Of(Composer c, EstimateFacts facts, IReadOnlyList<Column> sums)
    {
        var f = c.Formats;
        var lines = facts.Lines.OrderBy(line => line.Group).ToList();
        var prices = c.OnThePoint(lines.Select(line => f.UnitPrice(line.UnitPrice)));
        var rows = Grouped(c, lines, line => line.Group, (line, i) =>
        [
            What(c, line.Text, line.PartNumber, line.Provenance),
            Figure(c, line.LowQuantity == line.HighQuantity ? f.Quantity(line.LowQuantity) : $"{f.Quantity(line.LowQuantity)} – {f.Quantity(line.HighQuantity)}"),
            c.Text(line.Unit, Composer.Body),
            Figure(c, prices[i]),
            Figure(c, f.Amount(line.LowAmount)),
            Figure(c, f.Amount(line.HighAmount)),
        ]);
        return new Table([new Column(1), new Column(0), new Column(0, 6), new Column(0), .. sums],
            Head(c, "", "Quantity", "Unit", "Price", $"Low, {facts.Currency}", $"High, {facts.Currency}"), rows, Palette.Line);
    }

    private static List<Row> Grouped<T>(Composer c, IReadOnlyList<T> lines, Func<T, LineGroup> groupOf, Func<T, int, IReadOnlyList<Block?>> cells)
    {
        var rows = new List<Row>();
        for (var i = 0; i < lines.Count; i++)
        {
            if (i == 0 || groupOf(lines[i]) != groupOf(lines[i - 1]))
                rows.Add(Heading(c, groupOf(lines[i])));
            rows.Add(new Row(cells(lines[i], i)));
        }
        return rows;
    }

    private static Row Head(Composer c, params string[] names) =>
        new([.. names.Select((name, i) => name.Length == 0 ? null : c.Text(name, Composer.SmallQuiet, i is 0 or 2 ? Align.Left : Align.Right))]);

    private static Row Heading(Composer c, LineGroup group) => new([c.Text(group switch
    {
        LineGroup.Labour => "Labour",
        LineGroup.Part => "Parts",
        LineGroup.Material => "Materials",
        LineGroup.Deposit => "Invoiced as a deposit before",
        _ => "Other",
    }, Composer.Strong)])
    { Spans = true, KeepWithNext = true };

    private static Block Figure(Composer c, string text) => c.Text(text, Composer.Body, Align.Right);

    private static string? ChangeOf(Composer c, LineFacts line) => line.Change is not { } change
        ? null
        : $"{(change < 0 ? "discount" : "surcharge")}{(line.ChangePercent is { } percent ? $" {c.Formats.Percent(Math.Abs(percent))}" : "")} {(change < 0 ? "−" : "+")}{c.Formats.Amount(Math.Abs(change))}";

    private static Block What(Composer c, string text, string? number, string? provenance, string? change = null)
    {
        var detail = string.Join(" · ", new[] { number is null ? null : $"no. {number}", provenance, change }.OfType<string>());
        return detail.Length == 0 ? c.Text(text, Composer.Body) : new Stack([c.Text(text, Composer.Body), c.Text(detail, Composer.SmallQuiet)]);
    }
}
