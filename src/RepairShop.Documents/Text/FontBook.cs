using System.Globalization;
using System.Text;

namespace RepairShop.Documents.Text;

internal enum Weight
{
    Regular,
    SemiBold,
}

/// <summary>The bundled faces in the order they are asked. The engine's own fallback is empty on a server without fonts.</summary>
internal static class FontBook
{
    private static readonly FontFace[] Japanese = [FontFace.Load("NotoSansJP-Regular-l1.ttf"), FontFace.Load("NotoSansJP-Regular-l2.ttf")];

    private static readonly FontFace[] RegularChain =
    [
        FontFace.Load("SourceSans3-Regular.ttf"), FontFace.Load("NotoSansHebrew-Regular.ttf"), FontFace.Load("NotoSansArabic-Regular.ttf"), .. Japanese,
    ];

    private static readonly FontFace[] SemiBoldChain =
    [
        FontFace.Load("SourceSans3-SemiBold.ttf"), FontFace.Load("NotoSansHebrew-SemiBold.ttf"), FontFace.Load("NotoSansArabic-SemiBold.ttf"), .. Japanese,
    ];

    private static FontFace[] Chain(Weight weight) => weight == Weight.SemiBold ? SemiBoldChain : RegularChain;

    public static FontFace First(Weight weight) => Chain(weight)[0];

    /// <summary>The first face that can write the whole grapheme; null when none can.</summary>
    public static FontFace? For(ReadOnlySpan<char> grapheme, Weight weight)
    {
        foreach (var face in Chain(weight))
        {
            var all = true;
            foreach (var rune in grapheme.EnumerateRunes())
                all &= IsInvisible(rune.Value) || face.Has(IsSpace(rune) ? ' ' : rune.Value);
            if (all)
                return face;
        }
        return null;
    }

    /// <summary>Shaping makes thin, figure and no-break spaces from the plain one where a face lacks them.</summary>
    private static bool IsSpace(Rune rune) => Rune.GetUnicodeCategory(rune) == UnicodeCategory.SpaceSeparator;

    /// <summary>Joiners, direction marks and variation selectors: shaping uses or drops them, no glyph is needed.</summary>
    private static bool IsInvisible(int codePoint) =>
        codePoint is >= 0xFE00 and <= 0xFE0F || CharUnicodeInfo.GetUnicodeCategory(codePoint) == UnicodeCategory.Format;
}
