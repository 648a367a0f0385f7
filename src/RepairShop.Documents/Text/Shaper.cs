using System.Globalization;
using System.Text;
using HarfBuzzSharp;

namespace RepairShop.Documents.Text;

/// <summary>Cuts text into runs of one face and one direction and shapes each with HarfBuzz.</summary>
internal sealed class Shaper
{
    private readonly Dictionary<(string, TextStyle, int), List<GlyphRun>> _known = [];
    private readonly SortedSet<string> _missing = new(StringComparer.Ordinal);

    /// <summary>Every grapheme no bundled face can write, once.</summary>
    public IReadOnlyList<string> Missing => [.. _missing];

    /// <summary>Runs of a piece of text in logical order. Levels belong to the piece's characters.</summary>
    public List<GlyphRun> Shape(ReadOnlySpan<char> text, ReadOnlySpan<byte> levels, TextStyle style)
    {
        // Prices, units and words come again and again; one direction is nearly always the case.
        var uniform = levels.Length > 0 && !levels.ContainsAnyExcept(levels[0]);
        var key = uniform ? (text.ToString(), style, levels[0]) : default;
        if (uniform && _known.TryGetValue(key, out var known))
            return known;
        var runs = new List<GlyphRun>();
        for (var start = 0; start < text.Length;)
        {
            var face = FaceAt(text, start, style.Weight, out var end);
            while (face is not null && end < text.Length && levels[end] == levels[start] && FaceAt(text, end, style.Weight, out var next) == face)
                end = next;
            var piece = text[start..end].ToString();
            runs.Add(face is null ? Box(piece, style, levels[start]) : ShapeRun(piece, face, style, levels[start]));
            start = end;
        }
        if (uniform)
            _known[key] = runs;
        return runs;
    }

    private static FontFace? FaceAt(ReadOnlySpan<char> text, int start, Weight weight, out int end)
    {
        end = start + StringInfo.GetNextTextElementLength(text[start..]);
        return FontBook.For(text[start..end], weight);
    }

    private GlyphRun Box(string grapheme, TextStyle style, int level)
    {
        _missing.Add(grapheme);
        var face = FontBook.First(style.Weight);
        return new GlyphRun
        {
            Face = face,
            Style = style,
            Glyphs = [0],
            Offsets = [(0, 0)],
            Clusters = [0],
            Text = grapheme,
            Width = face.MissingBoxAdvance * style.Size,
            Level = level,
        };
    }

    private static GlyphRun ShapeRun(string text, FontFace face, TextStyle style, int level)
    {
        using var buffer = new HarfBuzzSharp.Buffer();
        buffer.AddUtf16(text);
        buffer.GuessSegmentProperties();
        buffer.Direction = level % 2 == 0 ? Direction.LeftToRight : Direction.RightToLeft;
        face.Shape(buffer);
        var infos = buffer.GetGlyphInfoSpan();
        var positions = buffer.GetGlyphPositionSpan();
        var scale = style.Size / face.UnitsPerEm;
        var glyphs = new ushort[infos.Length];
        var offsets = new (float, float)[infos.Length];
        var clusters = new uint[infos.Length];
        var x = 0f;
        for (var i = 0; i < infos.Length; i++)
        {
            glyphs[i] = (ushort)infos[i].Codepoint;
            offsets[i] = (x + positions[i].XOffset * scale, -positions[i].YOffset * scale);
            clusters[i] = (uint)Encoding.UTF8.GetByteCount(text.AsSpan(0, (int)infos[i].Cluster));
            x += positions[i].XAdvance * scale;
        }
        return new GlyphRun { Face = face, Style = style, Glyphs = glyphs, Offsets = offsets, Clusters = clusters, Text = text, Width = x, Level = level };
    }
}
