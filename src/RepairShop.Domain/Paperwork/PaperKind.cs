namespace RepairShop.Domain.Paperwork;

/// <summary>What can be printed. The claim tag has two shapes of the same facts: the 62 × 29 mm label and the page.</summary>
public enum PaperKind
{
    ClaimTag,
    ClaimTagPage,
    Estimate,
    ServiceRecord,
    Invoice,
    CreditNote,
    BenchSheet,
    TrayLabel,
    Statement,
    Reminder,
}
