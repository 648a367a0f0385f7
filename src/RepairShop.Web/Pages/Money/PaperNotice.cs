using RepairShop.Services.Paperwork;

namespace RepairShop.Web.Pages.Money;

/// <summary>What a person is told when a paper was made, and what it could not write.</summary>
public static class PaperNotice
{
    public static string Of(IssuedPaper paper, string what)
    {
        var sentence = $"{PaperNames.Of(paper.Kind)} {paper.Number} {what}.";
        if (paper.EInvoiceFaults.Count > 0)
            sentence += $" No electronic invoice was written: {string.Join(" ", paper.EInvoiceFaults.Select(fault => fault.Remedy).Distinct())}";
        return paper.MissingCharacters.Count == 0
            ? sentence
            : $"{sentence} These characters are in none of the fonts and are printed as boxes: {string.Join(' ', paper.MissingCharacters)}";
    }
}
