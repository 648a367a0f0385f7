using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Domain.Reminders;

/// <summary>An invoice and the step it is due for.</summary>
public sealed record RemindedInvoice(Invoice Invoice, ReminderStep Step);

/// <summary>What a letter to one customer says in figures.</summary>
/// <param name="Leading">The furthest step among its invoices: its title, text, fee and days to pay are the letter's.</param>
/// <param name="Lines">Longest due first.</param>
/// <param name="Due">Of all of them; never more than they owe.</param>
/// <param name="Fee">Once a letter, whatever the number of invoices.</param>
/// <param name="EarlierFees">Of letters before, told and neither taken nor waived.</param>
/// <param name="PayBy"></param>
public sealed record ReminderFigures(
    ReminderStep Leading, IReadOnlyList<ReminderLineFacts> Lines, decimal Due, decimal Fee, IReadOnlyList<ReminderFeeFacts> EarlierFees, DateOnly PayBy)
{
    public decimal Total => Due + Fee + EarlierFees.Sum(fee => fee.Amount);

    /// <param name="invoices">One at least, of one customer and currency.</param>
    /// <param name="earlier">Fees of letters before.</param>
    /// <param name="asksFees">The owner has turned fees on, and the letter is in the shop's currency.</param>
    /// <param name="today"></param>
    public static ReminderFigures Of(IReadOnlyCollection<RemindedInvoice> invoices, IReadOnlyList<ReminderFeeFacts> earlier, bool asksFees, DateOnly today)
    {
        var leading = invoices.MaxBy(one => one.Step.Number)!.Step;
        var lines = invoices.OrderBy(one => ReminderRules.DueDay(one.Invoice)).ThenBy(one => one.Invoice.Number, StringComparer.Ordinal)
            .Select(one => Line(one.Invoice, today)).ToList();
        return new ReminderFigures(leading, lines, lines.Sum(line => line.Due), asksFees ? leading.Fee : 0, asksFees ? earlier : [], today.AddDays(leading.DaysToPay));
    }

    private static ReminderLineFacts Line(Invoice invoice, DateOnly today) => new(
        invoice.Number!, invoice.IssueDate!.Value, ReminderRules.DueDay(invoice), invoice.Payable, invoice.Paid, invoice.Credited, invoice.WrittenOff, invoice.Balance,
        today.DayNumber - ReminderRules.DueDay(invoice).DayNumber);
}
