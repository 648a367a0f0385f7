using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Reminders;

/// <summary>A reminder that went out.</summary>
public sealed record SentReminder(int Step, DateOnly On, DateOnly PayBy);

/// <summary>All that decides whether an invoice is reminded of.</summary>
/// <param name="Invoice"></param>
/// <param name="Customer">As a sentence names them.</param>
/// <param name="IsSpared">The customer gets no reminders at all.</param>
/// <param name="Held">What the workshop holds for the customer in this currency: credit, and what has to go back on other invoices.</param>
/// <param name="Sent">Of this invoice.</param>
/// <param name="Hold">The newest; null where there never was one.</param>
public sealed record ReminderCase(Invoice Invoice, string Customer, bool IsSpared, decimal Held, IReadOnlyCollection<SentReminder> Sent, ReminderHold? Hold);

/// <summary>Who is reminded of what, and when. Nothing is ever sent by itself: this says what may be.</summary>
public static class ReminderRules
{
    public const int MostSteps = 6;

    /// <summary>The step that is due on a day, or why none is.</summary>
    public static Result<ReminderStep> DueStep(ReminderCase about, IReadOnlyList<ReminderStep> steps, DateOnly today)
    {
        var invoice = about.Invoice;
        if (invoice.IssuedAt is null)
            return new InvoiceNotIssued();
        if (invoice.Balance <= 0)
            return new NothingToRemind(invoice.Number!);
        if (about.IsSpared)
            return new CustomerNotReminded(about.Customer);
        if (about.Hold?.Until is { } until && today < until)
            return new ReminderOnHold(invoice.Number!, until, about.Hold.Reason);
        if (about.Sent.Any(sent => sent.On >= today))
            return new RemindedToday(invoice.Number!);
        if (NextStep(about, steps) is not { } step)
            return new RemindersUsedUp(invoice.Number!);
        var day = DayOf(about, step);
        if (today < day)
            return new ReminderNotYet(invoice.Number!, day);
        return about.Held > 0 ? new CustomerHasMoneyHere(about.Customer, about.Held, invoice.Currency) : step;
    }

    /// <summary>The one after the last that was sent; null after the last there is.</summary>
    public static ReminderStep? NextStep(ReminderCase about, IReadOnlyList<ReminderStep> steps)
    {
        var next = about.Sent.Select(sent => sent.Step).DefaultIfEmpty(0).Max() + 1;
        return steps.FirstOrDefault(step => step.Number == next);
    }

    /// <summary>So many days after the day it was due, and not before the day the last letter named has passed.</summary>
    public static DateOnly DayOf(ReminderCase about, ReminderStep step)
    {
        var day = DueDay(about.Invoice).AddDays(step.DaysAfterDue);
        var after = about.Sent.Select(sent => sent.PayBy.AddDays(1)).DefaultIfEmpty(day).Max();
        return after > day ? after : day;
    }

    /// <summary>Where no day was set, that of issue.</summary>
    public static DateOnly DueDay(Invoice invoice) => invoice.DueDate ?? invoice.IssueDate ?? DateOnly.MaxValue;

    /// <param name="invoice"></param>
    /// <param name="until">From when on it may be reminded of again.</param>
    /// <param name="reason"></param>
    /// <param name="today"></param>
    public static Result MayHold(Invoice invoice, DateOnly? until, string reason, DateOnly today)
    {
        if (invoice.IssuedAt is null)
            return new InvoiceNotIssued();
        if (invoice.Balance <= 0)
            return new NothingToRemind(invoice.Number!);
        if (until is not { } day || day <= today)
            return new HoldDayNotAhead(until ?? today);
        return string.IsNullOrWhiteSpace(reason) ? new HoldReasonMissing() : Result.Done;
    }

    /// <summary>A step as typed, among the others.</summary>
    public static Result MayKeep(ReminderStep step, IReadOnlyList<ReminderStep> steps, string currency)
    {
        if (step.Title.Trim().Length == 0)
            return new ReminderTitleMissing();
        if (step.Text.Trim().Length == 0)
            return new ReminderTextMissing();
        var above = steps.FirstOrDefault(other => other.Number == step.Number - 1)?.DaysAfterDue;
        var below = steps.FirstOrDefault(other => other.Number == step.Number + 1)?.DaysAfterDue;
        if (step.DaysAfterDue <= (above ?? 0) || step.DaysAfterDue >= below)
            return new ReminderDaysOutOfOrder(step.DaysAfterDue, above, below);
        var digits = Amount.Digits(currency);
        return step.Fee < 0 || Totals.Round(step.Fee, digits) != step.Fee ? new ReminderFeeUnusable(step.Fee, currency, digits) : Result.Done;
    }

    /// <summary>A fee is taken out of money that came, never added to an invoice.</summary>
    /// <param name="letter"></param>
    /// <param name="number">Of its paper.</param>
    /// <param name="isTaken"></param>
    /// <param name="credit">What the customer has.</param>
    public static Result MayTakeFee(ReminderLetter letter, string number, bool isTaken, decimal credit)
    {
        if (MayWaiveFee(letter, number, isTaken) is { IsDone: false } refused)
            return refused;
        return letter.Fee > credit ? new ReminderFeeAboveCredit(letter.Fee, credit, letter.Currency) : Result.Done;
    }

    public static Result MayWaiveFee(ReminderLetter letter, string number, bool isTaken)
    {
        if (letter.Fee == 0)
            return new NoReminderFee(number);
        if (letter.FeeWaivedAt is not null)
            return new ReminderFeeWaived(number);
        return isTaken ? new ReminderFeeTaken(number) : Result.Done;
    }
}
