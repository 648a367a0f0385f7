using System.Globalization;
using System.Text;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Banking;

/// <summary>Whether a payer's name, as banks write names, may be a customer's: capitals, without accents, in another order, with
/// ä written ae. Only a hint: many people share a name.</summary>
public static class NameLikeness
{
    private const int ShortestAlone = 4;

    /// <summary>Two words are shared; or all of the shorter name, where it is a single word of some length.</summary>
    public static bool Are(string payer, string customer)
    {
        var (some, others) = (Words(payer), Words(customer));
        var shared = some.Intersect(others, StringComparer.Ordinal).Where(word => word.Length >= 2).ToList();
        return shared.Count >= 2 || (shared.Count == 1 && Math.Min(some.Count, others.Count) == 1 && shared[0].Length >= ShortestAlone);
    }

    private static HashSet<string> Words(string name)
    {
        var words = new HashSet<string>(StringComparer.Ordinal);
        var word = new StringBuilder();
        foreach (var letter in TypedText.OneLine(name).Normalize(NormalizationForm.FormD).ToUpperInvariant() + " ")
        {
            if (char.IsLetterOrDigit(letter))
                word.Append(Folded(letter));
            else if (char.GetUnicodeCategory(letter) is not (UnicodeCategory.NonSpacingMark or UnicodeCategory.Format) && letter is not ('\'' or '’'))
                Take(words, word);
        }

        return words;
    }

    private static void Take(HashSet<string> words, StringBuilder word)
    {
        // ae, oe and ue are how ä, ö and ü are written where a bank has no accents.
        var plain = word.Replace("AE", "A").Replace("OE", "O").Replace("UE", "U").ToString();
        if (plain.Length > 0)
            words.Add(plain);
        word.Clear();
    }

    /// <summary>Letters that do not come apart into a letter and an accent.</summary>
    private static string Folded(char letter) => letter switch
    {
        'Ł' => "L",
        'Ø' => "O",
        'Đ' or 'Ð' => "D",
        'ß' => "SS",
        'Æ' => "A",
        'Œ' => "O",
        'İ' or 'ı' => "I",
        'Þ' => "TH",
        _ => letter.ToString(),
    };
}
