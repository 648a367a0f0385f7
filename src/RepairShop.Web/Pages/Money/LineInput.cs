using System.ComponentModel.DataAnnotations;
using RepairShop.Domain.Estimates;
using RepairShop.Services.Estimates;

namespace RepairShop.Web.Pages.Money;

/// <summary>One line of an estimate or invoice as it is typed. A row nothing was written in is no line.</summary>
public sealed class LineInput
{
    public LineKind Kind { get; set; }

    [StringLength(500)]
    public string? Text { get; set; }

    [Display(Name = "At least")]
    public decimal? LowQuantity { get; set; }

    [Display(Name = "Quantity")]
    public decimal? HighQuantity { get; set; }

    [StringLength(20)]
    public string? Unit { get; set; }

    [Display(Name = "Price")]
    public decimal? UnitPrice { get; set; }

    public string? TaxRate { get; set; }

    /// <summary>On invoices: see <see cref="ChangeText"/>.</summary>
    [StringLength(20), ChangeText]
    public string? Change { get; set; }

    public bool IsBlank => string.IsNullOrWhiteSpace(Text) && LowQuantity is null && HighQuantity is null && UnitPrice is null;

    public static LineInput Of(DraftLine line) => new()
    {
        Kind = line.Kind,
        Text = line.Text,
        LowQuantity = line.LowQuantity,
        HighQuantity = line.HighQuantity,
        Unit = line.Unit,
        UnitPrice = line.UnitPrice,
        TaxRate = line.TaxRate,
        Change = ChangeText.Of(line.Change),
    };

    /// <summary>Labour with one figure only means that many hours; anything else means one of it.</summary>
    public DraftLine ToLine()
    {
        var low = LowQuantity ?? HighQuantity ?? 1;
        return new DraftLine(Kind, Text?.Trim() ?? "", low, HighQuantity ?? low, Unit?.Trim() ?? "", UnitPrice ?? 0, TaxRate ?? "") { Change = ChangeText.Read(Change).Change };
    }
}

/// <summary>The lines of a form with what the table needs to draw them.</summary>
/// <param name="HasRange">Low and high quantities, as on an estimate; one quantity and a discount, as on an invoice.</param>
public sealed record LinesView(IReadOnlyList<LineInput> Lines, IReadOnlyList<TaxChoice> Taxes, string Currency, bool PricesIncludeTax, bool HasRange);

/// <summary>Moves, removes and adds rows of a form that is posted and shown again; nothing is kept yet.</summary>
public static class LineMoves
{
    /// <summary>One empty row is always offered at the end of a form.</summary>
    public static void AddSpare(List<LineInput> lines, IReadOnlyList<TaxChoice> taxes)
    {
        lines.RemoveAll(line => line.IsBlank);
        lines.Add(new LineInput { Kind = LineKind.Part, Unit = "pcs", TaxRate = Default(taxes) });
    }

    /// <param name="lines"></param>
    /// <param name="move">add, up:2, down:2 or remove:2.</param>
    /// <returns>False when this is no such move.</returns>
    public static bool Apply(List<LineInput> lines, string move)
    {
        var parts = move.Split(':');
        if (parts[0] == "add")
            return true; // the row typed into stays, and a new spare one follows
        if (parts.Length != 2 || !int.TryParse(parts[1], out var row) || row < 0 || row >= lines.Count)
            return false;
        var line = lines[row];
        switch (parts[0])
        {
            case "remove":
                lines.RemoveAt(row);
                return true;
            case "up" or "down":
                lines.RemoveAt(row);
                lines.Insert(Math.Clamp(row + (parts[0] == "up" ? -1 : 1), 0, lines.Count), line);
                return true;
            default:
                return false;
        }
    }

    public static string Default(IReadOnlyList<TaxChoice> taxes) =>
        taxes.FirstOrDefault(tax => tax.IsDefault)?.Key ?? (taxes.Count > 0 ? taxes[0].Key : "");
}
