namespace RepairShop.Domain.Ledger;

/// <summary>How the shop's accountant numbers and names an account; what is not set is as <see cref="AccountChart"/> has it.</summary>
public sealed class AccountName
{
    public LedgerAccount Account { get; set; }

    public string Number { get; set; } = "";

    public string Name { get; set; } = "";
}

/// <summary>Numbers and names the accounts have until the owner enters the accountant's own. The numbers are this book's:
/// 1 what one has, 2 what one owes, 4 what comes in, 5 what it costs.</summary>
public static class AccountChart
{
    public static IReadOnlyList<AccountName> Usual { get; } =
    [
        Of(LedgerAccount.Receivables, "1100", "Receivables"),
        Of(LedgerAccount.Cash, "1200", "Cash"),
        Of(LedgerAccount.Bank, "1300", "Bank"),
        Of(LedgerAccount.MoneyUnderWay, "1350", "Money under way (card, cheque)"),
        Of(LedgerAccount.Stock, "1400", "Parts in stock"),
        Of(LedgerAccount.Tax, "2100", "Tax on sales"),
        Of(LedgerAccount.Deposits, "2200", "Customers’ deposits and credit"),
        Of(LedgerAccount.PartsReceived, "2300", "Parts received, not yet billed"),
        Of(LedgerAccount.RevenueLabour, "4100", "Revenue from labour"),
        Of(LedgerAccount.RevenueParts, "4200", "Revenue from parts"),
        Of(LedgerAccount.RevenueOther, "4300", "Other revenue"),
        Of(LedgerAccount.CostOfParts, "5100", "Cost of parts used"),
        Of(LedgerAccount.StockDifferences, "5200", "Stock differences"),
        Of(LedgerAccount.WriteOffs, "5300", "Bad debts written off"),
        Of(LedgerAccount.Rounding, "5400", "Rounding"),
    ];

    private static AccountName Of(LedgerAccount account, string number, string name) => new() { Account = account, Number = number, Name = name };
}
