using RepairShop.Domain.Invoices;
using RepairShop.Domain.Reminders;

namespace RepairShop.Domain.Tests.Reminders;

/// <summary>An invoice of 100.00 due on 1 November 2026, and steps after 7, 21 and 35 days with 10 days to pay.</summary>
internal static class LateInvoices
{
    public static readonly DateOnly Due = new(2026, 11, 1);

    public static IReadOnlyList<ReminderStep> Steps { get; } =
    [
        new() { Number = 1, DaysAfterDue = 7, DaysToPay = 10, Title = "Friendly note", Text = "Dear {customer}" },
        new() { Number = 2, DaysAfterDue = 21, DaysToPay = 10, Title = "Second reminder", Text = "Dear {customer}", Fee = 4 },
        new() { Number = 3, DaysAfterDue = 35, DaysToPay = 7, Title = "Last reminder", Text = "Dear {customer}", Fee = 8 },
    ];

    /// <param name="paid">The three sums are the database's to keep, so they are put in as it does.</param>
    /// <param name="credited"></param>
    /// <param name="writtenOff"></param>
    /// <param name="number"></param>
    public static Invoice Of(decimal paid = 0, decimal credited = 0, decimal writtenOff = 0, string number = "I-2026-0001")
    {
        var invoice = new Invoice
        {
            Number = number,
            IssuedAt = DateTimeOffset.UnixEpoch,
            IssueDate = Due.AddDays(-14),
            DueDate = Due,
            Currency = "EUR",
            Gross = 100,
        };
        Put(invoice, nameof(invoice.Paid), paid);
        Put(invoice, nameof(invoice.Credited), credited);
        Put(invoice, nameof(invoice.WrittenOff), writtenOff);
        return invoice;
    }

    public static void Put(Invoice invoice, string sum, decimal amount) => typeof(Invoice).GetProperty(sum)!.SetValue(invoice, amount);

    public static ReminderCase Case(Invoice invoice, params SentReminder[] sent) => new(invoice, "Ines Halloway", false, 0, sent, null);
}
