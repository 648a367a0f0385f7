using RepairShop.Documents.Layout;
using RepairShop.Documents.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>A 62 × 29 mm label for a tray: whose parts lie in it, which tray it is, and a small map of its cells.</summary>
internal static class TrayLabel
{
    private const float Code = 42;

    /// <summary>Four modules of a code of 33: the quiet zone a scanner needs.</summary>
    private const float Quiet = 6;

    private const float MapWidth = 42;
    private const float MapHeight = 32;

    public static IReadOnlyList<Ink> Draw(Composer c, TrayLabelFacts facts) => [.. facts.Trays.Select(tray => Draw(c, facts, tray))];

    private static Ink Draw(Composer c, TrayLabelFacts facts, TrayFacts tray)
    {
        var size = SheetSize.Label;
        var ink = new Ink();
        new QrBlock(facts.StripDownUrl, Code, Palette.Ink).Draw(ink, Quiet, Quiet, Code);
        var x = Quiet + Code + Quiet;
        var map = size.Width - size.Side - MapWidth;
        var wide = size.Width - size.Side - x;
        c.Fit(ink, facts.RepairNumber, new TextStyle(14, Weight.SemiBold, Palette.Ink), x, 18, map - x - 4);
        c.Fit(ink, tray.Name.Length < 7 ? $"Tray {tray.Name}" : tray.Name, new TextStyle(14, Weight.SemiBold, Palette.Ink), x, 36, map - x - 4);
        Map(c, ink, tray, map, Quiet);
        c.Fit(ink, Composer.NameOf(facts.Camera), new TextStyle(8, Weight.Regular, Palette.Ink), x, 57, wide);
        c.Fit(ink, $"{facts.Shop.Name}, {c.Formats.Moment(facts.IssuedAt)}", new TextStyle(6.5f, Weight.Regular, Palette.Ink), Quiet, 67, size.Width - size.Side - Quiet);
        var lost = tray.EasilyLost.Count == 0 ? "" : $"◆ easily lost: {string.Join(" ", tray.EasilyLost)}";
        c.Fit(ink, lost, new TextStyle(7, Weight.SemiBold, Palette.Ink), Quiet, 77, size.Width - size.Side - Quiet);
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
