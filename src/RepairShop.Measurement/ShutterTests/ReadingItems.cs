using System.Globalization;
using System.Text;

namespace RepairShop.Measurement.ShutterTests;

/// <summary>A stretch of a list that should hold one reading.</summary>
/// <param name="Typed">As typed, without invisible format characters.</param>
/// <param name="Folded">The same length in plain characters: one kind of blank, slash, minus, inch sign and micro sign.</param>
/// <param name="AfterBlank">Only blanks part it from the reading before.</param>
internal readonly record struct ItemText(string Typed, string Folded, bool AfterBlank);

/// <summary>Cuts a typed list into its readings.</summary>
internal static class ReadingItems
{
    internal const string VulgarFractions = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒⅟";

    public static List<ItemText> Split(string text)
    {
        var typed = WithoutFormatCharacters(text);
        var folded = string.Create(typed.Length, typed, static (span, source) =>
        {
            for (var i = 0; i < span.Length; i++) span[i] = Fold(source[i]);
        });

        var items = new List<ItemText>();
        int start = -1, end = 0;
        bool blankOnly = false, afterBlank = false;
        for (var i = 0; i < folded.Length;)
        {
            if (IsSeparator(folded, i))
            {
                blankOnly &= folded[i] == ' ';
                i++;
                continue;
            }

            var from = i;
            while (i < folded.Length && !IsSeparator(folded, i)) i++;
            if (start >= 0 && blankOnly && Continues(folded[start..end], folded[from..i]))
            {
                end = i;
            }
            else
            {
                if (start >= 0) Add(start, end);
                start = from;
                end = i;
                afterBlank = blankOnly && items.Count > 0;
            }

            blankOnly = true;
        }

        if (start >= 0) Add(start, end);
        return items;

        void Add(int from, int to) => items.Add(new(typed[from..to], folded[from..to], afterBlank));
    }

    /// <summary>Two neighbours parted by a blank alone that could as well be one number: "1 1/2", "1 000", "1/1 250".</summary>
    public static ReadingFault? MayBelongTogether(List<ItemText> items, int index)
    {
        if (index + 1 >= items.Count || !items[index + 1].AfterBlank) return null;
        var (left, right) = (items[index].Folded, items[index + 1].Folded);
        var under = left.LastIndexOfAny(['/', '⅟']) + 1;
        var last = left[under..].Trim();
        if (last.Length is 0 or > 3 || !last.All(char.IsAsciiDigit)) return null;
        if (right.Contains('/') || VulgarFractions.Contains(right[0])) return under == 0 ? ReadingFault.AmbiguousFraction : null;
        var digits = right.TakeWhile(char.IsAsciiDigit).Count();
        return digits == 3 ? ReadingFault.AmbiguousSeparator : null;
    }

    /// <summary>A unit a blank behind its number, or a fraction written with blanks about its bar.</summary>
    private static bool Continues(string before, string next) =>
        (char.IsAsciiDigit(before[^1]) || VulgarFractions.Contains(before[^1])) && (ReadingItem.IsUnitLike(next) || next[0] == '/')
        || (before[^1] == '/' && char.IsAsciiDigit(next[0]));

    private static bool IsSeparator(string text, int at) => text[at] switch
    {
        ' ' or ';' or '\n' => true,
        ',' => at + 1 == text.Length || IsSeparator(text, at + 1),
        _ => false,
    };

    private static char Fold(char c) => c switch
    {
        '\r' or '\n' or '\u2028' or '\u2029' or '\u0085' or '\v' or '\f' => '\n',
        '\u2044' or '\u2215' or '\uFF0F' => '/',
        '\u2212' or '\u2010' or '\u2011' or '\u2012' or '\u2013' or '\uFE63' => '-',
        '\u00B5' or '\u03BC' => 'u',
        '\u2033' or '\u201D' or '\u201C' or '\u201E' or '\uFF02' => '"',
        '\u2019' or '\u02BC' or '\u2032' => '\'',
        '\u066B' => '.',
        '\u3001' => ',',
        '\uFF1B' => ';',
        >= '\uFF10' and <= '\uFF19' => (char)(c - '\uFF10' + '0'),
        '\uFF0C' => ',',
        '\uFF0E' => '.',
        _ when char.IsWhiteSpace(c) => ' ',
        _ => c,
    };

    private static string WithoutFormatCharacters(string text)
    {
        if (!text.Any(c => char.GetUnicodeCategory(c) == UnicodeCategory.Format)) return text;
        var kept = new StringBuilder(text.Length);
        foreach (var c in text)
            if (char.GetUnicodeCategory(c) != UnicodeCategory.Format)
                kept.Append(c);
        return kept.ToString();
    }
}
