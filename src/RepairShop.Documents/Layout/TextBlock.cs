using RepairShop.Documents.Text;

namespace RepairShop.Documents.Layout;

internal enum Align
{
    Left,

    /// <summary>Where its writing begins: at the right for Hebrew and Arabic, each paragraph by itself.</summary>
    Start,
    Right,
    Center,
}

/// <summary>A paragraph.</summary>
internal sealed class TextBlock(Shaper shaper, IReadOnlyList<Span> spans, Align align, float leading) : Block
{
    private const int FewestLines = 2;

    private (float Width, List<TextLine> Lines)? _laidOut;
    private IReadOnlyList<TextLine>? _part;

    public override float NaturalWidth => Paragraph.Lines(shaper, spans, 1e6f).Max(line => line.Width) + 0.02f;

    public override float Height(float width) => Lines(width).Count * leading;

    public override float LeastHeight(float width) => Math.Min(Lines(width).Count, FewestLines) * leading;

    /// <summary>Capitals, 0.66 of the size in the first face, stand in the middle of the line.</summary>
    public override float Baseline(float width) => (leading + spans.Max(span => span.Style.Size) * 0.66f) / 2;

    public override void Draw(Ink ink, float x, float y, float width)
    {
        var baseline = y + Baseline(width);
        foreach (var line in Lines(width))
        {
            var free = width - line.Width;
            ink.Text(line, x + ShareBefore(line) * free, baseline);
            baseline += leading;
        }
    }

    private float ShareBefore(TextLine line) => align switch
    {
        Align.Right => 1,
        Align.Center => 0.5f,
        Align.Start when line.StartsAtRight => 1,
        _ => 0,
    };

    public override (Block? Head, Block? Tail) Split(float width, float height)
    {
        var lines = Lines(width);
        var fit = (int)(height / leading);
        if (fit >= lines.Count)
            return (this, null);
        if (lines.Count - fit < FewestLines)
            fit = lines.Count - FewestLines;
        return fit < FewestLines ? (null, this) : (Part(lines.Take(fit)), Part(lines.Skip(fit)));
    }

    private TextBlock Part(IEnumerable<TextLine> lines) => new(shaper, spans, align, leading) { _part = [.. lines] };

    private IReadOnlyList<TextLine> Lines(float width)
    {
        if (_part is not null)
            return _part;
        if (_laidOut is not { } known || known.Width != width)
            _laidOut = known = (width, Paragraph.Lines(shaper, spans, width));
        return known.Lines;
    }
}
