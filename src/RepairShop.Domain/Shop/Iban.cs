using System.Globalization;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Shop;

/// <summary>International bank account numbers (ISO 13616), checked by their country's length and the remainder mod 97 (ISO 7064, MOD 97-10).</summary>
public static class Iban
{
    /// <summary>
    /// Lengths by country, after the SWIFT IBAN registry as carried by Apache Commons Validator (apache/commons-validator, IBANValidator.java); YE from memory.
    /// </summary>
    private static readonly Dictionary<string, int> Lengths = new (int Length, string Countries)[]
    {
        (15, "NO"), (16, "BE"), (18, "DK FI FK FO GL NL SD"), (19, "MK SI"), (20, "AT BA EE KZ LT LU MN XK"), (21, "CH HR LI LV"),
        (22, "BG BH CR DE GB GE IE ME RS VA"), (23, "AE GI IL IQ OM SO TL"), (24, "AD CZ ES MD PK RO SA SE SK TN VG"), (25, "LY PT ST"),
        (26, "IS TR"), (27, "BI DJ FR GR IT MC MR SM"), (28, "AL AZ BY CY DO GT HU LB NI PL SV"), (29, "BR EG PS QA UA"), (30, "JO KW MU YE"),
        (31, "MT SC"), (32, "LC"), (33, "RU"),
    }.SelectMany(group => group.Countries.Split(' ').Select(country => (country, group.Length))).ToDictionary();

    /// <summary>Without blanks, hyphens and a word IBAN in front, in capitals: how it is stored.</summary>
    public static string Plain(string typed)
    {
        var kept = typed.Where(c => !char.IsWhiteSpace(c) && c != '-' && char.GetUnicodeCategory(c) != UnicodeCategory.Format);
        var plain = string.Concat(kept).ToUpperInvariant();
        return plain.StartsWith("IBAN", StringComparison.Ordinal) ? plain[4..].TrimStart(':') : plain;
    }

    /// <summary>In groups of four, as it is written on paper: "DE89 3704 0044 0532 0130 00".</summary>
    public static string Grouped(string iban) => string.Join(' ', Plain(iban).Chunk(4).Select(group => new string(group)));

    public static bool IsValid(string typed) => Check(typed).IsDone;

    /// <summary>The plain form of what was typed, or why it is no IBAN.</summary>
    public static Result<string> Check(string? typed)
    {
        var iban = Plain(typed ?? "");
        if (iban.Length is < 5 or > 34 || !iban.All(char.IsAsciiLetterOrDigit) || !char.IsAsciiLetter(iban[0]) || !char.IsAsciiLetter(iban[1])
            || !char.IsAsciiDigit(iban[2]) || !char.IsAsciiDigit(iban[3]))
            return new IbanNotWellFormed(Shortened((typed ?? "").Trim()));
        if (!Lengths.TryGetValue(iban[..2], out var length)) return new IbanCountryUnknown(iban, iban[..2]);
        if (iban.Length != length) return new IbanLengthWrong(iban, iban[..2], length, iban.Length);
        return Remainder(iban) == 1 ? iban : new IbanCheckFailed(iban);
    }

    /// <summary>
    /// The remainder mod 97 with the first four characters at the end and letters as A = 10 … Z = 35; 1 for a sound number. The creditor
    /// reference RF… (ISO 11649) is checked in the same way.
    /// </summary>
    /// <param name="value">Five or more capitals and digits.</param>
    public static int Remainder(string value)
    {
        ArgumentNullException.ThrowIfNull(value);
        if (value.Length < 5 || !value.All(c => char.IsAsciiLetterUpper(c) || char.IsAsciiDigit(c)))
            throw new ArgumentOutOfRangeException(nameof(value), value, "Five or more capitals and digits are needed.");
        var remainder = 0;
        foreach (var c in value[4..] + value[..4])
            remainder = char.IsAsciiDigit(c) ? (remainder * 10 + (c - '0')) % 97 : (remainder * 100 + (c - 'A' + 10)) % 97;
        return remainder;
    }

    private static string Shortened(string text) => text.Length <= 40 ? text : text[..(char.IsHighSurrogate(text[39]) ? 39 : 40)] + "…";
}
