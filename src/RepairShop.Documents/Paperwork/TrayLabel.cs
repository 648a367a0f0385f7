using RepairShop.Documents.Layout;
using RepairShop.Documents.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>A 62 × 29 mm label for a tray: whose parts lie in it, which tray it is, and a small map of its cells.</summary>
internal static class TrayLabel
{
    private const float Code = 50;
    private const float Edge = 9;
    private const float MapWidth = 44;
    private const float MapHeight = 40;

    public static IReadOnlyList<Ink> Draw(Composer c, TrayLabelFacts facts) => [.. facts.Trays.Select(tray => Draw(c, facts, tray))];

    private static Ink Draw(Composer c, TrayLabelFacts facts, TrayFacts tray)
    {
        var size = SheetSize.Label;
        var ink = new Ink();
        new QrBlock(facts.StripDownUrl, Code, Palette.Ink).Draw(ink, Edge, (size.Height - Code) / 2, Code);
        var x = Edge + Code + Edge;
        var right = size.Width - size.Side - MapWidth;
        var width = right - x - 4;
        c.Fit(ink, facts.RepairNumber, new TextStyle(13, Weight.SemiBold, Palette.Ink), x, 18, width);
        c.Fit(ink, $"Tray {tray.Name}", new TextStyle(13, Weight.SemiBold, Palette.Ink), x, 35, width);
        c.Fit(ink, Composer.NameOf(facts.Camera), new TextStyle(8, Weight.Regular, Palette.Ink), x, 47, width);
        c.Fit(ink, c.Formats.Moment(facts.IssuedAt), new TextStyle(6.5f, Weight.Regular, Palette.Ink), x, 57, width);
        c.Fit(ink, facts.Shop.Name, new TextStyle(6.5f, Weight.Regular, Palette.Ink), x, 67, width);
        Map(c, ink, tray, right, 10);
        var lost = tray.EasilyLost.Count == 0 ? "" : $"◆ easily lost: {string.Join(" ", tray.EasilyLost)}";
        c.Fit(ink, lost, new TextStyle(6.5f, Weight.SemiBold, Palette.Ink), x, 76, size.Width - size.Side - x);
        return ink;
    }

    /// <summary>The cells in the tray's own proportion, rows lettered and the corners named; cells with something easily lost filled.</summary>
    private static void Map(Composer c, Ink ink, TrayFacts tray, float left, float top)
    {
        var cell = Math.Min(MapWidth / tray.Columns, MapHeight / tray.Rows);
        var lost = tray.EasilyLost.ToHashSet();
        for (var row = 0; row <= tray.Rows; row++)
            ink.Line(left, top + row * cell, left + tray.Columns * cell, top + row * cell, Palette.Ink, 0.5f);
        for (var column = 0; column <= tray.Columns; column++)
            ink.Line(left + column * cell, top, left + column * cell, top + tray.Rows * cell, Palette.Ink, 0.5f);
        for (var row = 0; row < tray.Rows; row++)
            for (var column = 0; column < tray.Columns; column++)
                if (lost.Contains($"{(char)('A' + row)}{column + 1}"))
                    ink.Line(left + column * cell + 1, top + (row + 0.5f) * cell, left + (column + 1) * cell - 1, top + (row + 0.5f) * cell, Palette.Ink, Math.Max(1, cell - 2));
        var corners = $"A1 – {(char)('A' + tray.Rows - 1)}{tray.Columns}";
        c.Fit(ink, corners, new TextStyle(6.5f, Weight.Regular, Palette.Ink), left, top + MapHeight + 9, MapWidth);
    }
}
