using System.Globalization;

namespace RepairShop.Documents.Text;

/// <summary>
/// Where a line may end: after spaces, after a hyphen, dash or slash between letters, and between Japanese characters but for
/// the marks that may not begin or end a line. Enough for names, addresses and notes; not the whole of UAX #14.
/// </summary>
internal static class LineBreaks
{
    private const string NeverFirst = "、。，．・：；？！）〕］｝〉》」』】〙〗〟’”ゝゞ々ーァィゥェォッャュョヮぁぃぅぇぉっゃゅょゎ°′″％,.:;?!)]}";
    private const string NeverLast = "（〔［｛〈《「『【〘〖〝‘“([{¥＄￥";

    /// <summary>Indices at which a new piece starts; the last is the length. Spaces stay with the piece before them.</summary>
    public static List<int> Pieces(string text)
    {
        var ends = new List<int>();
        for (var i = 1; i < text.Length; i++)
            if (MayBreakBefore(text, i))
                ends.Add(i);
        if (text.Length > 0)
            ends.Add(text.Length);
        return ends;
    }

    /// <summary>Grapheme by grapheme, for a word longer than the line.</summary>
    public static IEnumerable<int> Graphemes(string text, int from, int to)
    {
        for (var i = from; i < to;)
        {
            i += StringInfo.GetNextTextElementLength(text.AsSpan(i, to - i));
            yield return i;
        }
    }

    private static bool MayBreakBefore(string text, int i)
    {
        var (before, after) = (text[i - 1], text[i]);
        if (IsSpace(after) || char.IsLowSurrogate(after))
            return false;
        if (IsSpace(before))
            return true;
        if (before is '-' or '/' or '–' or '—' or '\u2010')
            return i >= 2 && char.IsLetter(text[i - 2]) && char.IsLetterOrDigit(after);
        return (IsWide(before) || IsWide(after) || (i >= 2 && IsWide(text[i - 2]) && char.IsLowSurrogate(before))) && before != '\u200D' && !NeverFirst.Contains(after) && !NeverLast.Contains(before)
            && CharUnicodeInfo.GetUnicodeCategory(text, i) is not (UnicodeCategory.NonSpacingMark or UnicodeCategory.Format);
    }

    public static bool IsSpace(char c) => c is ' ' or '\t' or '\u3000' or (>= '\u2000' and <= '\u2006') or (>= '\u2008' and <= '\u200B');

    private static bool IsWide(char c) => c is (>= '\u2E80' and <= '\u9FFF') or (>= '\uF900' and <= '\uFAFF') or (>= '\uFF00' and <= '\uFF60')
        or (>= '\uD840' and <= '\uD87F'); // the high half of a rarer kanji
}
