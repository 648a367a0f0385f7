namespace RepairShop.Domain.Paperwork;

/// <summary>A reminder's sums as paper and page say them.</summary>
public static class ReminderWords
{
    /// <summary>What leads to the total, line by line; nothing where the total says it all.</summary>
    /// <param name="facts"></param>
    /// <param name="day">How a day is written.</param>
    public static IEnumerable<(string Name, decimal Amount)> Parts(ReminderFacts facts, Func<DateOnly, string> day)
    {
        if (facts.Lines.Count > 1 || facts.Total != facts.Due)
            yield return (facts.Lines.Count > 1 ? "Still due on these invoices" : "Still due on the invoice", facts.Due);
        foreach (var earlier in facts.EarlierFees)
            yield return ($"Fee of {earlier.PaperNumber}, {day(earlier.On)}", earlier.Amount);
        if (facts.Fee != 0)
            yield return ("Fee for this letter", facts.Fee);
    }

    /// <summary>How late, as the line under the day it was due says it.</summary>
    public static string Late(int days) => days == 1 ? "1 day late" : $"{days} days late";
}
