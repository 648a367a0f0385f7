using System.Text.RegularExpressions;

namespace RepairShop.Domain.Paperwork;

/// <summary>Which cautions are due, by the words somebody wrote about the camera and the work. Rather one too many than one
/// too few: the words are those of the trade (common practice).</summary>
public static partial class CautionWords
{
    private static readonly (Caution Caution, Regex Words)[] Table =
    [
        (Caution.FlammableSolvent, Solvent()),
        (Caution.FlashCapacitor, Capacitor()),
        (Caution.MercuryCell, Mercury()),
        (Caution.ThoriatedGlass, Thorium()),
        (Caution.SeleniumCell, Selenium()),
        (Caution.SpringUnderTension, Spring()),
    ];

    public static IReadOnlyList<Caution> In(IEnumerable<string> texts)
    {
        var all = string.Join('\n', texts);
        return [.. Table.Where(row => row.Words.IsMatch(all)).Select(row => row.Caution)];
    }

    [GeneratedRegex(@"\b(naphtha|petrol|white spirit|lighter fluid|solvents?|acetone|ether|isopropyl|isopropanol|alcohol|toluene|xylene|heptane)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Solvent();

    [GeneratedRegex(@"\b(capacitors?|condensers?|electronic flash|built-in flash|flash unit|strobe)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Capacitor();

    [GeneratedRegex(@"\b(mercury|px\s?-?625|px\s?-?13)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Mercury();

    [GeneratedRegex(@"\b(thorium|thoriated|radioactive)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Thorium();

    [GeneratedRegex(@"\bselenium\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Selenium();

    [GeneratedRegex(@"\b(main\s?springs?|springs?|spring tension|curtain tension)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Spring();
}
