using System.Globalization;
using System.Text.RegularExpressions;
using RepairShop.Domain.Shop;

namespace RepairShop.Web.Forms;

/// <summary>
/// Numbers as people type them: decimal comma or point, spaces or the shop's own mark between thousands. What could be read two
/// ways ("1,234" where the comma separates thousands) is refused rather than guessed, as a guess would be wrong by a factor of 1000.
/// </summary>
public static partial class NumberText
{
    /// <summary>More than any field is for. Below it the database's columns hold the number, and a product of two is no overflow.</summary>
    private const decimal TooLarge = 1_000_000_000_000m;

    public static NumberReading Read(string text, CultureInfo culture)
    {
        var plain = Blanks().Replace(text.Trim(), "").Replace('−', '-').Replace('’', '\'');
        var match = Shape().Match(plain);
        if (!match.Success)
            return new NumberReading(null, $"{TypedText.Quoted(text.Trim())} is not a number: write it like {Sample(culture)}.");
        var marks = plain.Where(c => c is '.' or ',').Distinct().ToList();
        var last = plain.LastIndexOfAny(['.', ',']);
        var lastTwice = last >= 0 && plain.IndexOf(plain[last], StringComparison.Ordinal) != last;
        if (marks.Count == 1 && !lastTwice && CouldBeThousands(plain, last) && Decimal(culture) != plain[last])
            return new NumberReading(null, TwoWays(text, plain, culture));
        if (marks.Count == 1 && lastTwice)
            last = -1;
        if (!WellGrouped(last < 0 ? plain : plain[..last]))
            return new NumberReading(null, $"{TypedText.Quoted(text.Trim())} is not a number: write it like {Sample(culture)}.");
        var whole = (last < 0 ? plain : plain[..last]).Replace(".", "").Replace(",", "").Replace("'", "");
        var invariant = last < 0 ? whole : $"{whole}.{plain[(last + 1)..]}";
        return decimal.TryParse(invariant, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            && Math.Abs(value) < TooLarge
            ? new NumberReading(value, null)
            : new NumberReading(null, $"{TypedText.Quoted(text.Trim())} is too large a number.");
    }

    private static bool CouldBeThousands(string plain, int at)
    {
        var before = plain[..at].TrimStart('+', '-');
        return plain.Length - at - 1 == 3 && before.Length is >= 1 and <= 3 && before[0] != '0';
    }

    private static bool WellGrouped(string whole)
    {
        var groups = whole.TrimStart('+', '-').Split('.', ',', '\'');
        return groups.Length == 1 || (groups[0].Length is >= 1 and <= 3 && groups.Skip(1).All(group => group.Length == 3));
    }

    private static char Decimal(CultureInfo culture) => culture.NumberFormat.NumberDecimalSeparator is "," ? ',' : '.';

    private static string TwoWays(string text, string plain, CultureInfo culture)
    {
        var mark = Decimal(culture);
        var thousands = plain.Replace(".", "").Replace(",", "");
        var fraction = plain.Replace('.', mark).Replace(',', mark);
        return $"{TypedText.Quoted(text.Trim())} can be read two ways: write {thousands} or {fraction}.";
    }

    private static string Sample(CultureInfo culture) => 12.5m.ToString(culture);

    [GeneratedRegex(@"[\s\u00a0\u202f\u2009]")]
    private static partial Regex Blanks();

    [GeneratedRegex(@"^[+-]?([0-9][0-9.,']*)?([.,][0-9]+|[0-9])$", RegexOptions.CultureInvariant)]
    private static partial Regex Shape();
}

/// <summary>The number, or the sentence that says why there is none.</summary>
public sealed record NumberReading(decimal? Value, string? Refusal);
