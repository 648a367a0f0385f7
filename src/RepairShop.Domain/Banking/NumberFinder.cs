using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Banking;

/// <summary>Finds invoice numbers, and their creditor references, in what a payer or a bank has made of them: without regard to case,
/// with blanks, hyphens and other signs put in or left out.</summary>
public sealed class NumberFinder
{
    /// <summary>A shorter number stands in many texts without meaning an invoice; alone in a field of its own it still counts.</summary>
    public const int ShortestInText = 4;

    private readonly Dictionary<string, string> known = new(StringComparer.Ordinal);
    private readonly HashSet<string> references = new(StringComparer.Ordinal);
    private readonly int[] lengths;

    public NumberFinder(IEnumerable<string> numbers)
    {
        foreach (var number in numbers)
        {
            known.TryAdd(Plain(number), number);
            if (CreditorReference.Of(number) is { } reference && known.TryAdd(reference, number))
                references.Add(reference);
        }

        known.Remove("");
        lengths = [.. known.Keys.Select(key => key.Length).Distinct().OrderDescending()];
    }

    /// <returns>Each number once, as it stands on the invoice, with whether its creditor reference was what named it.</returns>
    public IReadOnlyList<(string Number, bool ByReference)> In(string text)
    {
        var found = new SortedDictionary<string, bool>(StringComparer.Ordinal);
        // A number does not go on behind a semicolon, nor from one field into the next.
        foreach (var part in text.Split([';', '|', '\n']))
            Find(part, found);
        return [.. found.Select(one => (one.Key, one.Value))];
    }

    /// <summary>Letters and digits of ASCII, in capitals.</summary>
    public static string Plain(string number) => string.Concat(Letters(number).Select(one => one.Letter));

    private void Find(string text, SortedDictionary<string, bool> found)
    {
        var letters = Letters(text);
        var plain = string.Concat(letters.Select(one => one.Letter));
        var keys = known.GetAlternateLookup<ReadOnlySpan<char>>();
        for (var at = 0; at < plain.Length;)
        {
            var length = lengths.FirstOrDefault(one => keys.ContainsKey(plain.AsSpan(at, Math.Min(one, plain.Length - at))) && IsAt(letters, plain, at, one));
            if (length == 0)
            {
                at++;
                continue;
            }

            var key = plain.Substring(at, length);
            found[known[key]] = found.GetValueOrDefault(known[key]) || references.Contains(key);
            at += length; // what stands inside a number found is part of it
        }
    }

    private static bool IsAt(List<(char Letter, bool Touches)> letters, string plain, int at, int length)
    {
        if (at + length > plain.Length || (length < ShortestInText && length < plain.Length))
            return false;
        // A digit that touches is part of a longer number; a letter before one may be a word the bank's line break ran into it.
        var before = at > 0 && letters[at].Touches && char.IsAsciiDigit(plain[at - 1]) && char.IsAsciiDigit(plain[at]);
        var after = at + length < plain.Length && letters[at + length].Touches && char.IsAsciiDigit(plain[at + length - 1]) && char.IsAsciiDigit(plain[at + length]);
        return !before && !after;
    }

    /// <summary>What stands between letters and digits is left out, but known by whether they touch.</summary>
    private static List<(char Letter, bool Touches)> Letters(string text)
    {
        var letters = new List<(char, bool)>(text.Length);
        var touches = false;
        foreach (var letter in text)
        {
            if (char.IsAsciiLetterOrDigit(letter))
                letters.Add((char.ToUpperInvariant(letter), touches));
            touches = char.IsAsciiLetterOrDigit(letter);
        }

        return letters;
    }
}
