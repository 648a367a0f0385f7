using System.Globalization;
using System.Text;

namespace RepairShop.Domain.Shop;

/// <summary>Typed text made fit to be kept: no control characters, no invisible signs that turn the reading direction, no blanks
/// around it. Letters of every script, emoji and the joiners they need stay as they are.</summary>
public static class TypedText
{
    /// <summary>For fields of one line: line ends become blanks.</summary>
    public static string OneLine(string? text) => Clean(text, keepLines: false);

    /// <summary>For fields of several lines.</summary>
    public static string Lines(string? text) => Clean(text, keepLines: true);

    /// <summary>Each text cleaned, empty ones and repetitions left out.</summary>
    public static string[] Each(IEnumerable<string> texts) =>
        [.. texts.Select(OneLine).Where(text => text.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase)];

    /// <summary>As typed, but for control characters, halves of characters and the two that are none (U+FFFE, U+FFFF), which the
    /// database or XML can't hold.</summary>
    public static string WithoutControls(string text) => string.Concat(text.EnumerateRunes()
        .Where(rune => rune != Rune.ReplacementChar && rune.Value is not (0xFFFE or 0xFFFF) && (rune.Value is '\n' or '\r' or '\t' || Rune.GetUnicodeCategory(rune) != UnicodeCategory.Control)));

    /// <summary>No longer than so many characters, and never through the middle of one that takes two.</summary>
    public static string Cut(string text, int most) => text.Length <= most ? text : text[..(char.IsHighSurrogate(text[most - 1]) ? most - 1 : most)];

    /// <summary>A piece of something not to be trusted inside a sentence: short, and without what would break the line.</summary>
    public static string Quoted(string text)
    {
        var clean = string.Concat(text.Take(40).Select(letter => char.IsControl(letter) || char.IsSurrogate(letter) ? '\uFFFD' : letter));
        return $"“{clean}{(text.Length > 40 ? "…" : "")}”";
    }

    private static string Clean(string? text, bool keepLines)
    {
        if (string.IsNullOrEmpty(text))
            return "";
        var clean = new StringBuilder(text.Length);
        foreach (var rune in text.Replace("\r\n", "\n", StringComparison.Ordinal).EnumerateRunes())
        {
            if (rune.Value is '\n' or '\r' or '\t' or 0x2028 or 0x2029)
                clean.Append(keepLines && rune.Value is not '\t' ? '\n' : ' ');
            else if (Rune.GetUnicodeCategory(rune) != UnicodeCategory.Control && !TurnsDirection(rune.Value) && rune != Rune.ReplacementChar)
                clean.Append(rune.ToString());
        }

        var kept = clean.ToString().Trim();
        // Joiners and fillers stand between letters or not at all: alone they look like an empty field and are one.
        return kept.EnumerateRunes().All(rune => Rune.IsWhiteSpace(rune) || Rune.GetUnicodeCategory(rune) == UnicodeCategory.Format) ? "" : kept;
    }

    // Embeddings, overrides and isolates (Unicode Standard Annex 9): they can make a name look like another one.
    private static bool TurnsDirection(int sign) => sign is >= 0x202A and <= 0x202E or >= 0x2066 and <= 0x2069;
}
