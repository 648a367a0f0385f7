using System.Globalization;
using RepairShop.Documents.Text;

namespace RepairShop.Documents.Layout;

/// <summary>Text that must not take a second line: smaller type first where that is allowed, an ellipsis last.</summary>
internal sealed class OneLine(Shaper shaper, string text, TextStyle style, float smallest, float height) : Block
{
    public override float Height(float width) => height;

    public override void Draw(Ink ink, float x, float y, float width) => ink.Text(Fit(width), x, y + (height + style.Size * 0.66f) / 2);

    public TextLine Fit(float width)
    {
        var (plain, size) = (text.ReplaceLineEndings(" "), style);
        var line = Line(plain, size);
        while (line.Width > width && size.Size > smallest)
            line = Line(plain, size = size with { Size = size.Size - 0.5f });
        var graphemes = new StringInfo(plain);
        for (var keep = graphemes.LengthInTextElements - 1; line.Width > width && keep > 0; keep--)
            line = Line(graphemes.SubstringByTextElements(0, keep).TrimEnd() + "…", size);
        return line;
    }

    private TextLine Line(string line, TextStyle size) => Paragraph.Lines(shaper, [new Span(line, size)], 1e6f)[0];
}
