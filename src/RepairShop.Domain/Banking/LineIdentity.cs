using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace RepairShop.Domain.Banking;

/// <summary>By what a line is known when it comes again, in the same file or in one that overlaps.</summary>
public static class LineIdentity
{
    /// <summary>
    /// The account with the bank's own reference where there is one, else with all that is written. Day, amount and direction are always
    /// part of it, for banks give a reference to a whole batch, or the word NONREF to everything. Lines alike in one file are counted.
    /// </summary>
    /// <returns>One each, in the order of the lines: SHA-256 in lower-case hex.</returns>
    public static IReadOnlyList<string> Of(IEnumerable<ReadLine> lines)
    {
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        var identities = new List<string>();
        foreach (var line in lines)
        {
            var words = Words(line);
            var number = seen[words] = seen.GetValueOrDefault(words) + 1;
            identities.Add(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{words}\n{number}")))));
        }

        return identities;
    }

    private static string Words(ReadLine line)
    {
        var fixedPart = string.Create(
            CultureInfo.InvariantCulture,
            $"{line.Account}\n{line.BookedOn:yyyy-MM-dd}\n{line.Amount:0.####}\n{line.Currency}\n{line.IsCredit}\n{line.IsReversal}\n{line.IsPending}");
        return line.BankReference.Length > 0
            ? $"{fixedPart}\nref\n{line.BankReference}"
            : string.Create(CultureInfo.InvariantCulture, $"{fixedPart}\n{line.ValuedOn:yyyy-MM-dd}\n{Plain(line.Name)}\n{line.Iban}\n{Plain(line.Text)}\n{line.Reference}\n{line.EndToEndId}");
    }

    /// <summary>Banks break and pad the same text differently from export to export.</summary>
    private static string Plain(string text) => string.Concat(text.Where(letter => !char.IsWhiteSpace(letter)));
}
