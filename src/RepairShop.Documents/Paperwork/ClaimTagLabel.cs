using RepairShop.Documents.Layout;
using RepairShop.Documents.Text;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Paperwork;

/// <summary>The 62 × 29 mm label: every line fits, by smaller type first and an ellipsis last.</summary>
internal static class ClaimTagLabel
{
    private const float Code = 64;

    /// <summary>Four modules of a code of 29: the quiet zone a scanner needs.</summary>
    private const float Quiet = 9;

    public static Ink Draw(Composer c, ClaimTagFacts facts)
    {
        var size = SheetSize.Label;
        var ink = new Ink();
        new QrBlock(facts.RepairUrl, Code, Palette.Ink).Draw(ink, Quiet, (size.Height - Code) / 2, Code);
        var x = Quiet + Code + Quiet;
        var width = size.Width - size.Side - x;
        var serial = ClaimTagPage.Serials(facts.Camera).FirstOrDefault() ?? "no serial number";
        // Baselines by hand: on 29 mm every half point is seen.
        c.Fit(ink, facts.RepairNumber, new TextStyle(17, Weight.SemiBold, Palette.Ink), x, 19, width);
        ink.Line(x, 24, x + width, 24, Palette.Ink, 0.6f);
        c.Fit(ink, facts.CustomerSurname, new TextStyle(10.5f, Weight.SemiBold, Palette.Ink), x, 36, width);
        c.Fit(ink, $"{facts.Camera.Maker} {facts.Camera.Model}", new TextStyle(8.5f, Weight.Regular, Palette.Ink), x, 47, width);
        c.Fit(ink, serial, new TextStyle(8.5f, Weight.Regular, Palette.Ink), x, 57.5f, width);
        c.Fit(ink, c.Formats.Day(facts.ReceivedOn), new TextStyle(7, Weight.Regular, Palette.Ink), x, 67, width);
        c.Fit(ink, facts.Shop.Name, new TextStyle(7, Weight.Regular, Palette.Ink), x, 75, width);
        return ink;
    }
}
