using RepairShop.Domain.Paperwork;

namespace RepairShop.Services.Paperwork;

/// <summary>What a paper is called in lists and as a file.</summary>
public static class PaperNames
{
    public static string Of(PaperKind kind) => kind switch
    {
        PaperKind.ClaimTag => "Claim tag label",
        PaperKind.ClaimTagPage => "Claim tag",
        PaperKind.Estimate => "Estimate",
        PaperKind.ServiceRecord => "Service record",
        PaperKind.Invoice => "Invoice",
        PaperKind.CreditNote => "Credit note",
        PaperKind.BenchSheet => "Bench sheet",
        PaperKind.TrayLabel => "Tray labels",
        PaperKind.Statement => "Statement",
        PaperKind.Reminder => "Reminder",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No such paper."),
    };

    /// <summary>Of the electronic invoice: invoice-I-2026-0042.xml.</summary>
    public static string EInvoiceFileName(Paper paper) => Path.ChangeExtension(FileName(paper), ".xml");

    /// <summary>Plain letters only, so that every system can keep it: invoice-I-2026-0042.pdf.</summary>
    public static string FileName(Paper paper)
    {
        var name = $"{Of(paper.Kind)}-{paper.Number}".Replace(' ', '-');
        return string.Concat(name.Select(sign => char.IsAsciiLetterOrDigit(sign) || sign is '-' or '_' or '.' ? sign : '-')).ToLowerInvariant() + ".pdf";
    }
}
