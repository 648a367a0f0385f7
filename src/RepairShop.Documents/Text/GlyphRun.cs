namespace RepairShop.Documents.Text;

/// <summary>How a stretch of text looks. Colour is 0xRRGGBB.</summary>
internal readonly record struct TextStyle(float Size, Weight Weight, uint Color);

/// <summary>
/// A stretch of text with its own look. Each span finds its own direction, so that a Hebrew name in an English line cannot turn
/// the numbers beside it.
/// </summary>
internal readonly record struct Span(string Text, TextStyle Style);

/// <summary>Shaped glyphs of one face, size and direction, in the order they are drawn.</summary>
internal sealed class GlyphRun
{
    public required FontFace Face { get; init; }
    public required TextStyle Style { get; init; }
    public required ushort[] Glyphs { get; init; }

    /// <summary>Offset of each glyph from the run's origin, in points.</summary>
    public required (float X, float Y)[] Offsets { get; init; }

    /// <summary>Where in <see cref="Text"/>, in UTF-8 bytes, the character of each glyph starts: text copied out stays right.</summary>
    public required uint[] Clusters { get; init; }

    public required string Text { get; init; }
    public required float Width { get; init; }
    public required int Level { get; init; }
}
