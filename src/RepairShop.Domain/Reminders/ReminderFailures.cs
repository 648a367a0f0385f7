using System.Globalization;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Results;

namespace RepairShop.Domain.Reminders;

public sealed record NothingToRemind(string Number) : Conflict($"Nothing is owed on {Number}: there is nothing to remind of.");

public sealed record CustomerNotReminded(string Customer)
    : Conflict($"{Customer} gets no reminders: speak to them, or change that on the customer’s page.");

public sealed record ReminderOnHold(string Number, DateOnly Until, string Reason) : Conflict(
    $"{Number} is on hold until {Until.ToString("d", CultureInfo.CurrentCulture)} ({Reason}): lift that first, if it is settled.");

public sealed record RemindedToday(string Number) : Conflict($"A reminder of {Number} was sent today already: wait for the day it names.");

public sealed record RemindersUsedUp(string Number)
    : Conflict($"{Number} has had every reminder there is: speak to the customer, or write off what is not to be had.");

public sealed record ReminderNotYet(string Number, DateOnly Day)
    : Conflict($"The next reminder of {Number} is due on {Day.ToString("d", CultureInfo.CurrentCulture)}: wait until then.");

/// <summary>The page showed another step than the one that is due now.</summary>
public sealed record ReminderStepChanged(string Number) : Conflict($"The reminder of {Number} is another one by now: look at the list again, then send it.");

/// <summary>The database's own refusal, should two people send the same step at once.</summary>
public sealed record ReminderSentAlready() : Conflict("One of these reminders was sent meanwhile: look at the list again.");

/// <summary>The database's own refusal: money came between reading and writing.</summary>
public sealed record ReminderAmountChanged() : Conflict("What is owed has changed meanwhile: look at the list again.");

/// <summary>Nobody is asked for money who has money here.</summary>
public sealed record CustomerHasMoneyHere(string Customer, decimal Held, string Currency) : Conflict(
    $"The workshop holds {Amount.Text(Held, Currency)} for {Customer}: use it on an invoice or give it back first, then remind of what is left.");

public sealed record NothingTicked() : Conflict("No invoice is ticked: tick those a reminder is to be sent of.");

public sealed record NoSuchReminderLetter() : NotFound("There is no such reminder.");

public sealed record ReminderWentByMail(string Number) : Conflict($"{Number} went out by e-mail: there is nothing to post.");

public sealed record HoldReasonMissing() : Invalid("Reason", "The reason is empty: say why no reminder is to be sent, such as what is in dispute.");

public sealed record HoldDayNotAhead(DateOnly Until) : Invalid(
    "Until", $"{Until.ToString("d", CultureInfo.CurrentCulture)} is not ahead: choose a day after today from which reminders may go out again.");

public sealed record NothingOnHold(string Number) : Conflict($"{Number} is not on hold.");

public sealed record ReminderStepUnknown() : NotFound("There is no such reminder step.");

public sealed record ReminderTitleMissing() : Invalid("Title", "The title is empty: write what the letter is called, such as Second reminder.");

public sealed record ReminderTextMissing() : Invalid("Text", "The text is empty: write what the customer is to read.");

public sealed record ReminderDaysOutOfOrder(int Days, int? Above, int? Below) : Invalid("DaysAfterDue", (Above, Below) switch
{
    ({ } above, { } below) => $"{Days} days do not fit between the steps beside it: write more than {above} and fewer than {below}.",
    (_, { } below) => $"{Days} days are not before the next step: write fewer than {below}.",
    ({ } above, _) => $"{Days} days are not after the step before: write more than {above}.",
    _ => $"{Days} days are not after the day it was due: write 1 or more.",
});

public sealed record ReminderFeeUnusable(decimal Fee, string Currency, int Digits) : Invalid(
    "Fee", $"{Fee.ToString(CultureInfo.CurrentCulture)} can't be a fee: write 0 or more, with at most {Digits} digits after the point, as {Currency} has.");

public sealed record ReminderStepsFull(int Most) : Conflict($"There are {Most} steps already: more letters bring no money, speak to the customer instead.");

public sealed record LastReminderStepStays() : Conflict("The first step stays: without one there are no reminders.");

public sealed record NoReminderFee(string Number) : Conflict($"{Number} asks for no fee.");

public sealed record ReminderFeeTaken(string Number) : Conflict($"The fee of {Number} was taken already.");

public sealed record ReminderFeeWaived(string Number) : Conflict($"The fee of {Number} was waived: it is not asked for any more.");

public sealed record ReminderFeeAboveCredit(decimal Fee, decimal Credit, string Currency) : Conflict(
    $"The fee is {Amount.Text(Fee, Currency)} and the customer’s credit {Amount.Text(Math.Max(0, Credit), Currency)}: record the money first and keep what is beyond the invoices as credit.");
