using RepairShop.Documents.Text;

namespace RepairShop.Documents.Layout;

/// <summary>One page as a list of things to draw: known before the first byte is written, so that fonts can be cut to what is used.</summary>
internal sealed class Ink
{
    private readonly List<InkMark> _marks = [];

    public IReadOnlyList<InkMark> Marks => _marks;

    /// <summary>Draws a line of text with its baseline at y.</summary>
    public void Text(TextLine line, float x, float baseline)
    {
        foreach (var run in line.Runs)
        {
            _marks.Add(new InkText(run, x, baseline));
            x += run.Width;
        }
    }

    public void Line(float x1, float y1, float x2, float y2, uint color, float width, bool dashed = false) =>
        _marks.Add(new InkLine(x1, y1, x2, y2, color, width, dashed));

    public void Rect(float x, float y, float width, float height, uint color) => _marks.Add(new InkRect(x, y, width, height, color));

    public void Box(float x, float y, float size, uint color, float width)
    {
        Line(x, y, x + size, y, color, width);
        Line(x + size, y, x + size, y + size, color, width);
        Line(x + size, y + size, x, y + size, color, width);
        Line(x, y + size, x, y, color, width);
    }

    /// <param name="x">Centre.</param>
    /// <param name="y">Centre.</param>
    /// <param name="radius">Outer edge for a filled dot, middle of the stroke for a hollow one.</param>
    /// <param name="color">Ink.</param>
    /// <param name="strokeWidth">Null fills the dot; else it is hollow and covers what lies below.</param>
    public void Dot(float x, float y, float radius, uint color, float? strokeWidth = null) => _marks.Add(new InkDot(x, y, radius, color, strokeWidth));

    public void Image(byte[] jpeg, float x, float y, float width, float height) => _marks.Add(new InkImage(jpeg, x, y, width, height));
}

internal abstract record InkMark;

internal sealed record InkText(GlyphRun Run, float X, float Baseline) : InkMark;

internal sealed record InkLine(float X1, float Y1, float X2, float Y2, uint Color, float Width, bool Dashed) : InkMark;

internal sealed record InkRect(float X, float Y, float Width, float Height, uint Color) : InkMark;

internal sealed record InkDot(float X, float Y, float Radius, uint Color, float? StrokeWidth) : InkMark;

internal sealed record InkImage(byte[] Jpeg, float X, float Y, float Width, float Height) : InkMark;
