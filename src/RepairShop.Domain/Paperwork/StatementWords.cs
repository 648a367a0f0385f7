namespace RepairShop.Domain.Paperwork;

/// <summary>A statement's lines and sums as paper and page say them.</summary>
public static class StatementWords
{
    public static string Of(StatementLineKind kind, string paper)
    {
        var what = kind switch
        {
            StatementLineKind.CreditNote => "Credit note",
            StatementLineKind.Payment => "Payment",
            StatementLineKind.PaymentTakenBack => "Payment taken back",
            StatementLineKind.GivenBack => "Money given back",
            StatementLineKind.WriteOff => "Written off",
            StatementLineKind.WriteOffUndone => "Write-off undone",
            StatementLineKind.Fee => "Fee",
            _ => "Invoice",
        };
        return paper.Length == 0 ? what : $"{what} {paper}";
    }

    /// <summary>What is open, by age, with what is not there left out.</summary>
    public static IEnumerable<(string Name, decimal Amount)> Owed(StatementFacts facts)
    {
        var ages = facts.Ages;
        (string Name, decimal Amount)[] all =
        [
            ("Not due yet", ages.NotDue), ("1 to 30 days late", ages.UpTo30), ("31 to 60 days late", ages.UpTo60), ("61 to 90 days late", ages.UpTo90),
            ("More than 90 days late", ages.Older), ("Less your credit with us", -facts.Credit), ("Less what we have to give back", -facts.ToGiveBack),
        ];
        return [.. all.Where(row => row.Amount != 0), ("Together", facts.Closing)];
    }
}
