using RepairShop.Documents.Charts;
using RepairShop.Documents.Text;

namespace RepairShop.Documents.Layout;

/// <summary>A chart on paper, at its own size.</summary>
internal sealed class ChartBlock(Shaper shaper, ChartDrawing drawing) : Block
{
    public override float Height(float width) => (float)drawing.Height;

    public override void Draw(Ink ink, float x, float y, float width)
    {
        foreach (var mark in drawing.Marks)
            Draw(ink, mark, x, y);
    }

    private void Draw(Ink ink, ChartMark mark, float x, float y)
    {
        switch (mark)
        {
            case ChartRect r:
                ink.Rect(x + (float)r.X, y + (float)r.Y, (float)r.Width, (float)r.Height, r.Look is ChartLook.Opening or ChartLook.Closing ? Palette.Shade : Palette.Band);
                break;
            case ChartLine l:
                var (color, width, dashed) = Stroke(l.Look);
                ink.Line(x + (float)l.X1, y + (float)l.Y1, x + (float)l.X2, y + (float)l.Y2, color, width, dashed);
                break;
            case ChartPath path:
                var (ofPath, thickness, dashes) = Stroke(path.Look);
                for (var i = 1; i < path.Points.Count; i++)
                    ink.Line(x + (float)path.Points[i - 1].X, y + (float)path.Points[i - 1].Y, x + (float)path.Points[i].X, y + (float)path.Points[i].Y, ofPath, thickness, dashes);
                break;
            case ChartDot d:
                ink.Dot(x + (float)d.X, y + (float)d.Y, (float)d.Radius, Stroke(d.Look).Color, d.Look == ChartLook.After ? null : 1.2f);
                break;
            case ChartText t:
                var line = Paragraph.Lines(shaper, [new Span(t.Text, new TextStyle(8, Weight.Regular, t.Look == ChartLook.Note ? Palette.Soft : Palette.Ink))], 1e6f)[0];
                var shift = t.Anchor switch { ChartAnchor.Middle => -line.Width / 2, ChartAnchor.End => -line.Width, _ => 0 };
                // On white, so that no grid line runs through a figure.
                ink.Rect(x + (float)t.X + shift - 1, y + (float)t.Y - 7, line.Width + 2, 9, Palette.Paper);
                ink.Text(line, x + (float)t.X + shift, y + (float)t.Y);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(mark), mark, "No such mark.");
        }
    }

    private static (uint Color, float Width, bool Dashed) Stroke(ChartLook look) => look switch
    {
        ChartLook.Zero => (Palette.Soft, 0.8f, false),
        ChartLook.Before => (Palette.Ink, 1, false),
        ChartLook.BeforeLink => (Palette.Soft, 0.6f, true),
        ChartLook.After => (Palette.Accent, 1, false),
        ChartLook.Limit or ChartLook.Crossing => (Palette.Soft, 0.5f, true),
        ChartLook.BeforeTrace => (Palette.Soft, 0.6f, false),
        ChartLook.AfterTrace => (Palette.Accent, 0.9f, false),
        ChartLook.AfterLink => (Palette.Accent, 0.6f, false),
        _ => (Palette.Line, 0.5f, false),
    };
}
