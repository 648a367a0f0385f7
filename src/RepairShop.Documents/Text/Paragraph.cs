using System.Text;

namespace RepairShop.Documents.Text;

/// <summary>One line ready to draw: runs from left to right.</summary>
/// <param name="StartsAtRight">Its paragraph is one of a writing that runs from the right.</param>
internal sealed record TextLine(IReadOnlyList<GlyphRun> Runs, float Width, bool StartsAtRight);

/// <summary>Spans broken into lines of a given width.</summary>
internal static class Paragraph
{
    public static List<TextLine> Lines(Shaper shaper, IReadOnlyList<Span> spans, float width)
    {
        var lines = new List<TextLine>();
        var open = new OpenLine(shaper);
        foreach (var span in spans)
        {
            var parts = Clean(span.Text).Split('\n');
            for (var i = 0; i < parts.Length; i++)
            {
                if (i > 0)
                    lines.Add(open.Close());
                Fill(open, lines, parts[i], span.Style, width);
            }
        }
        lines.Add(open.Close());
        return lines;
    }

    private static void Fill(OpenLine open, List<TextLine> lines, string text, TextStyle style, float width)
    {
        var source = new SourceText(text, Bidi.Levels(text), style);
        var start = 0;
        foreach (var end in LineBreaks.Pieces(text))
        {
            if (!open.Fits(source, start, end, width))
            {
                if (!open.IsEmpty)
                    lines.Add(open.Close());
                if (!open.Fits(source, start, end, width))
                {
                    FillByGrapheme(open, lines, source, start, end, width);
                    start = end;
                    continue;
                }
            }
            open.Add(source, start, end);
            start = end;
        }
    }

    /// <summary>A word longer than the line, a serial number or an address without spaces: cut where it fits.</summary>
    private static void FillByGrapheme(OpenLine open, List<TextLine> lines, SourceText source, int start, int end, float width)
    {
        foreach (var next in LineBreaks.Graphemes(source.Text, start, end))
        {
            if (!open.IsEmpty && !open.Fits(source, start, next, width))
                lines.Add(open.Close());
            open.Add(source, start, next);
            start = next;
        }
    }

    /// <summary>Control characters have no glyph; a tab is a space. Lines end with \n whatever they ended with.</summary>
    private static string Clean(string text)
    {
        if (!text.Any(char.IsControl))
            return text;
        var clean = new StringBuilder(text.Length);
        foreach (var c in text.ReplaceLineEndings("\n"))
            if (c == '\t')
                clean.Append(' ');
            else if (c == '\n' || !char.IsControl(c))
                clean.Append(c);
        return clean.ToString();
    }

    private sealed record SourceText(string Text, byte[] Levels, TextStyle Style);

    /// <summary>The line being filled: stretches of sources, each turned by its own direction when the line is closed.</summary>
    private sealed class OpenLine(Shaper shaper)
    {
        private readonly List<(SourceText Source, int Start, int End)> _stretches = [];
        private float _width;

        public bool IsEmpty => _stretches.Count == 0;

        public bool Fits(SourceText source, int start, int end, float width) =>
            _width + Width(source, start, TrimEnd(source.Text, start, end)) <= width + 0.01f;

        public void Add(SourceText source, int start, int end)
        {
            _width += Width(source, start, end);
            if (_stretches.Count > 0 && _stretches[^1] is var last && last.Source == source && last.End == start)
                _stretches[^1] = (source, last.Start, end);
            else
                _stretches.Add((source, start, end));
        }

        public TextLine Close()
        {
            var runs = new List<GlyphRun>();
            for (var i = 0; i < _stretches.Count; i++)
            {
                var (source, start, end) = _stretches[i];
                if (i == _stretches.Count - 1)
                    end = TrimEnd(source.Text, start, end);
                var shaped = new List<GlyphRun>(Shape(source, start, end));
                Bidi.Reorder(shaped, run => run.Level);
                runs.AddRange(shaped);
            }
            var atRight = _stretches.Count > 0 && Bidi.StartsAtRight(_stretches[0].Source.Text);
            _stretches.Clear();
            _width = 0;
            return new TextLine(runs, runs.Sum(run => run.Width), atRight);
        }

        private float Width(SourceText source, int start, int end)
        {
            var width = 0f;
            foreach (var run in Shape(source, start, end))
                width += run.Width;
            return width;
        }

        private List<GlyphRun> Shape(SourceText source, int start, int end) =>
            shaper.Shape(source.Text.AsSpan(start, end - start), source.Levels.AsSpan(start, end - start), source.Style);

        private static int TrimEnd(string text, int start, int end)
        {
            while (end > start && LineBreaks.IsSpace(text[end - 1]))
                end--;
            return end;
        }
    }
}
