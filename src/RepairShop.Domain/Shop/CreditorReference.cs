namespace RepairShop.Domain.Shop;

/// <summary>The structured creditor reference RF… (ISO 11649): a payer's bank program checks it, so a slip of the finger is found there.</summary>
public static class CreditorReference
{
    /// <summary>Of the 25 characters the standard allows, four are RF and the check digits.</summary>
    private const int MostOfOwn = 21;

    /// <summary>The reference for a number of ours, its letters and digits only: I-2026-0042 becomes RF07I20260042.</summary>
    /// <returns>Null where the number holds no letter or digit of ASCII, or more than 21.</returns>
    public static string? Of(string number)
    {
        var own = string.Concat(number.Where(char.IsAsciiLetterOrDigit)).ToUpperInvariant();
        if (own.Length is 0 or > MostOfOwn)
            return null;
        var check = 98 - Iban.Remainder("RF00" + own);
        return FormattableString.Invariant($"RF{check:00}{own}");
    }

    /// <summary>Without blanks, in capitals, and with check digits that are right (ISO 7064, mod 97-10).</summary>
    public static bool IsValid(string typed)
    {
        var plain = Iban.Plain(typed);
        return plain.Length is >= 5 and <= 25 && plain.StartsWith("RF", StringComparison.Ordinal)
            && char.IsAsciiDigit(plain[2]) && char.IsAsciiDigit(plain[3]) && plain.All(char.IsAsciiLetterOrDigit) && Iban.Remainder(plain) == 1;
    }
}
