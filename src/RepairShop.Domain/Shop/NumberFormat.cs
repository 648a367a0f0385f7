using System.Globalization;
using System.Text.RegularExpressions;

namespace RepairShop.Domain.Shop;

/// <summary>How a running number is written: plain text with <c>{number}</c>, or <c>{number:0000}</c> for leading zeros,
/// and <c>{year}</c> where each year starts at 1 again.</summary>
public static partial class NumberFormat
{
    [GeneratedRegex(@"\{number(?::(0{1,9}))?\}")]
    private static partial Regex NumberToken();

    private const string ForbiddenInAddress = "{}/\\?#%&+";

    public static bool HasYear(string format) => format.Contains("{year}", StringComparison.Ordinal);

    /// <summary>True when the format holds exactly one number, no character with a meaning in a web address, and is at most 40 characters long.</summary>
    public static bool IsValid(string format)
    {
        var rest = NumberToken().Replace(format, "").Replace("{year}", "", StringComparison.Ordinal);
        return NumberToken().Count(format) == 1
            && format.Length <= 40
            && !rest.Any(ForbiddenInAddress.Contains)
            && !rest.Any(char.IsControl);
    }

    /// <exception cref="ArgumentException">The format is not valid.</exception>
    public static string Write(string format, int year, int number)
    {
        if (!IsValid(format))
            throw new ArgumentException($"“{format}” is not a number format.", nameof(format));
        var text = NumberToken().Replace(format, match =>
            number.ToString(match.Groups[1].Success ? match.Groups[1].Value : "0", CultureInfo.InvariantCulture));
        return text.Replace("{year}", year.ToString("0000", CultureInfo.InvariantCulture), StringComparison.Ordinal);
    }
}
