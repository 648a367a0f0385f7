using RepairShop.Domain.Ledger;

namespace RepairShop.Web.Pages.Ledger;

/// <summary>What a line of the journal stands on, as people say it.</summary>
public static class LedgerWords
{
    public static string Of(JournalSource source) => source switch
    {
        JournalSource.CreditNote => "Credit note",
        JournalSource.Payment => "Payment of",
        JournalSource.Stock => "Stock",
        _ => source.ToString(),
    };
}
