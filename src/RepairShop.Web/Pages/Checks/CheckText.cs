using System.Globalization;
using RepairShop.Domain.Checks;
using RepairShop.Services.Checks;

namespace RepairShop.Web.Pages.Checks;

/// <summary>How a check came out, in words: "faulty, 9.2 s, stalls in the cold".</summary>
public static class CheckText
{
    public static string Of(CheckSaid? said) => said is null ? "not tested" : string.Join(", ", Parts(said));

    /// <summary>What stands behind the outcome; empty where nothing was written.</summary>
    public static string Rest(CheckSaid? said) => said is null ? "" : string.Join(", ", Parts(said).Skip(1));

    /// <summary>"Fine", as it begins a sentence.</summary>
    public static string Heading(CheckOutcome outcome) => char.ToUpperInvariant(CheckWords.Of(outcome)[0]) + CheckWords.Of(outcome)[1..];

    private static IEnumerable<string> Parts(CheckSaid said)
    {
        yield return CheckWords.Of(said.Outcome);
        if (said.Value is { } value)
            yield return $"{value.ToString("0.####", CultureInfo.CurrentCulture)} {said.Unit}".Trim();
        if (said.Note.Length > 0)
            yield return said.Note;
    }
}
