using System.Text.RegularExpressions;

namespace RepairShop.Domain.Shop;

/// <summary>What can be said about a tax number without asking the authority.</summary>
public enum TaxNumberVerdict
{
    /// <summary>Nothing is published for this country here: taken as typed.</summary>
    Unknown,

    /// <summary>It has the country's form; whether it was ever given out is not checked.</summary>
    FormatOnly,

    /// <summary>Its check digits are right.</summary>
    CheckDigitsRight,

    WrongFormat,

    WrongCheckDigits,
}

/// <summary>
/// Tax numbers by country: check digits where an algorithm is published (Australia's ABN, the United Kingdom's VAT number), the
/// form alone for the member states of the EU. A sound number may still belong to nobody: only the authority's own service knows.
/// </summary>
public static partial class TaxNumbers
{
    /// <summary>
    /// Forms of EU VAT numbers without the country's letters, after the European Commission's VIES questions and answers, question 11
    /// (from memory). Greece writes EL.
    /// </summary>
    private static readonly Dictionary<string, Regex> Forms = new (string Country, string Form)[]
    {
        ("AT", @"U\d{8}"), ("BE", @"[01]\d{9}"), ("BG", @"\d{9,10}"), ("CY", @"\d{8}[A-Z]"), ("CZ", @"\d{8,10}"), ("DE", @"\d{9}"), ("DK", @"\d{8}"),
        ("EE", @"\d{9}"), ("GR", @"\d{9}"), ("ES", @"[A-Z0-9]\d{7}[A-Z0-9]"), ("FI", @"\d{8}"), ("FR", @"[A-HJ-NP-Z0-9]{2}\d{9}"), ("HR", @"\d{11}"),
        ("HU", @"\d{8}"), ("IE", @"\d[A-Z0-9+*]\d{5}[A-Z]{1,2}"), ("IT", @"\d{11}"), ("LT", @"(\d{9}|\d{12})"), ("LU", @"\d{8}"), ("LV", @"\d{11}"),
        ("MT", @"\d{8}"), ("NL", @"[A-Z0-9+*]{9}B\d{2}"), ("PL", @"\d{10}"), ("PT", @"\d{9}"), ("RO", @"\d{2,10}"), ("SE", @"\d{12}"), ("SI", @"\d{8}"), ("SK", @"\d{10}"),
    }.ToDictionary(entry => entry.Country, entry => new Regex($"^{entry.Form}$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture));

    public static bool IsInEu(string country) => Forms.ContainsKey(country);

    /// <summary>Without blanks, dots and hyphens, in capitals.</summary>
    public static string Plain(string typed) => string.Concat(typed.Where(c => char.IsLetterOrDigit(c) || c is '+' or '*')).ToUpperInvariant();

    /// <param name="typed">With or without the country's letters in front.</param>
    /// <param name="country">ISO 3166-1 alpha-2 of whom it belongs to.</param>
    public static TaxNumberVerdict Check(string typed, string country)
    {
        var plain = Plain(typed);
        var own = WithoutCountry(plain, country);
        return country switch
        {
            "AU" => Abn(own),
            "GB" => UkVat(own),
            _ when Forms.TryGetValue(country, out var form) => form.IsMatch(own) ? TaxNumberVerdict.FormatOnly : TaxNumberVerdict.WrongFormat,
            _ => TaxNumberVerdict.Unknown,
        };
    }

    /// <summary>With the letters of the country in front, as EN 16931 BT-31 and BT-48 have it (BR-CO-09): EL for Greece.</summary>
    public static string WithCountry(string typed, string country)
    {
        var plain = Plain(typed);
        return plain.Length >= 2 && char.IsAsciiLetter(plain[0]) && char.IsAsciiLetter(plain[1]) && (country.Length == 0 || plain.StartsWith(PrefixOf(country), StringComparison.Ordinal) || plain.StartsWith("XI", StringComparison.Ordinal))
            ? plain
            : PrefixOf(country) + plain;
    }

    /// <summary>
    /// Australian Business Number: 1 is taken from the first digit, the digits are weighted 10, 1, 3, 5 … 19, and the sum is a multiple of 89
    /// (Australian Business Register, "Format of the ABN").
    /// </summary>
    private static TaxNumberVerdict Abn(string digits)
    {
        if (digits.Length != 11 || !digits.All(char.IsAsciiDigit))
            return TaxNumberVerdict.WrongFormat;
        int[] weights = [10, 1, 3, 5, 7, 9, 11, 13, 15, 17, 19];
        var sum = digits.Zip(weights, (digit, weight) => (digit - '0') * weight).Sum() - 10;
        return sum % 89 == 0 ? TaxNumberVerdict.CheckDigitsRight : TaxNumberVerdict.WrongCheckDigits;
    }

    /// <summary>
    /// United Kingdom: seven digits weighted 8 to 2 and the two check digits together are a multiple of 97, or of 97 less 55 for numbers
    /// given out since 2010 (from memory; HMRC, "VAT: VRN check digits"). Branches add three digits; government and health numbers have a form only.
    /// </summary>
    private static TaxNumberVerdict UkVat(string own)
    {
        if (Authorities().IsMatch(own))
            return TaxNumberVerdict.FormatOnly;
        if (own.Length is not (9 or 12) || !own.All(char.IsAsciiDigit))
            return TaxNumberVerdict.WrongFormat;
        var sum = Enumerable.Range(0, 7).Sum(at => (own[at] - '0') * (8 - at)) + (own[7] - '0') * 10 + (own[8] - '0');
        return sum % 97 == 0 || (sum + 55) % 97 == 0 ? TaxNumberVerdict.CheckDigitsRight : TaxNumberVerdict.WrongCheckDigits;
    }

    private static string PrefixOf(string country) => country == "GR" ? "EL" : country;

    private static string WithoutCountry(string plain, string country)
    {
        foreach (var prefix in new[] { PrefixOf(country), country == "GB" ? "XI" : country, country == "AU" ? "ABN" : country })
        {
            // A Dutch, Spanish or Irish number may begin with letters of its own, so only the country's are taken off.
            if (country.Length == 2 && plain.StartsWith(prefix, StringComparison.Ordinal) && plain.Length > prefix.Length)
                return plain[prefix.Length..];
        }
        return plain;
    }

    [GeneratedRegex(@"^(GD[0-4]|HA[5-9])\d{2}$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Authorities();
}
