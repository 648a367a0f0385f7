using RepairShop.Domain.Invoices;
using RepairShop.Domain.Reminders;
using Xunit;
using static RepairShop.Domain.Tests.Reminders.LateInvoices;

namespace RepairShop.Domain.Tests.Reminders;

public sealed class ReminderRulesTests
{
    private static object Asked(ReminderCase about, DateOnly today) =>
        ReminderRules.DueStep(about, Steps, today) is { IsDone: true } step ? step.Value!.Number : ReminderRules.DueStep(about, Steps, today).Failure!;

    private static SentReminder Sent(int step, int daysAfterDue, int daysToPay = 10) => new(step, Due.AddDays(daysAfterDue), Due.AddDays(daysAfterDue + daysToPay));

    [Fact]
    public void The_first_step_is_due_on_its_day_and_not_the_day_before()
    {
        Assert.Equal(new ReminderNotYet("I-2026-0001", Due.AddDays(7)), Asked(Case(Of()), Due.AddDays(6)));
        Assert.Equal(1, Asked(Case(Of()), Due.AddDays(7)));
        Assert.Equal(1, Asked(Case(Of()), Due.AddDays(400))); // however late: the first comes first
    }

    [Fact]
    public void A_step_waits_for_its_day_and_for_the_day_the_letter_before_it_named()
    {
        Assert.Equal(new ReminderNotYet("I-2026-0001", Due.AddDays(21)), Asked(Case(Of(), Sent(1, 7)), Due.AddDays(20)));
        Assert.Equal(2, Asked(Case(Of(), Sent(1, 7)), Due.AddDays(21)));
        // Sent late: who has until day 50 is not reminded on day 50, but on the day after.
        Assert.Equal(new ReminderNotYet("I-2026-0001", Due.AddDays(51)), Asked(Case(Of(), Sent(1, 40)), Due.AddDays(50)));
        Assert.Equal(2, Asked(Case(Of(), Sent(1, 40)), Due.AddDays(51)));
    }

    [Fact]
    public void Two_steps_never_go_on_one_day_even_with_no_days_to_pay()
    {
        Assert.Equal(new RemindedToday("I-2026-0001"), Asked(Case(Of(), Sent(1, 40, 0)), Due.AddDays(40)));
        Assert.Equal(2, Asked(Case(Of(), Sent(1, 40, 0)), Due.AddDays(41)));
    }

    [Fact]
    public void After_the_last_step_there_is_none() =>
        Assert.Equal(new RemindersUsedUp("I-2026-0001"), Asked(Case(Of(), Sent(1, 7), Sent(2, 21), Sent(3, 35)), Due.AddDays(90)));

    [Theory]
    [InlineData(99.99, 0, 0, true)]
    [InlineData(100, 0, 0, false)]
    [InlineData(0, 100, 0, false)]
    [InlineData(0, 0, 100, false)]
    [InlineData(40, 30, 29.99, true)]
    [InlineData(40, 30, 30, false)]
    [InlineData(100, 20, 0, false)] // paid, then credited: money has to go back
    public void Only_what_still_owes_something_is_reminded_of(decimal paid, decimal credited, decimal writtenOff, bool isDue) =>
        Assert.Equal(isDue ? 1 : new NothingToRemind("I-2026-0001"), Asked(Case(Of(paid, credited, writtenOff)), Due.AddDays(10)));

    [Fact]
    public void Drafts_and_credit_notes_are_not_reminded_of()
    {
        Assert.IsType<InvoiceNotIssued>(Asked(Case(new Invoice { Gross = 100 }), Due.AddDays(10)));
        var note = Of();
        note.Kind = InvoiceKind.CreditNote;
        Assert.Equal(new NothingToRemind("I-2026-0001"), Asked(Case(note), Due.AddDays(10)));
    }

    [Fact]
    public void A_hold_keeps_it_back_until_its_day_and_a_lifted_one_does_not()
    {
        var held = Case(Of()) with { Hold = new ReminderHold { Until = Due.AddDays(30), Reason = "Says the meter still sticks" } };
        Assert.Equal(new ReminderOnHold("I-2026-0001", Due.AddDays(30), "Says the meter still sticks"), Asked(held, Due.AddDays(29)));
        Assert.Equal(1, Asked(held, Due.AddDays(30)));
        Assert.Equal(1, Asked(held with { Hold = new ReminderHold() }, Due.AddDays(29)));
    }

    [Fact]
    public void A_customer_who_is_spared_or_has_money_here_is_not_reminded()
    {
        Assert.Equal(new CustomerNotReminded("Ines Halloway"), Asked(Case(Of()) with { IsSpared = true }, Due.AddDays(10)));
        Assert.Equal(new CustomerHasMoneyHere("Ines Halloway", 12, "EUR"), Asked(Case(Of()) with { Held = 12 }, Due.AddDays(10)));
    }

    [Fact]
    public void Where_no_day_was_set_that_of_issue_counts()
    {
        var invoice = Of();
        invoice.DueDate = null;
        Assert.Equal(1, Asked(Case(invoice), Due.AddDays(-14 + 7)));
        Assert.IsType<ReminderNotYet>(Asked(Case(invoice), Due.AddDays(-14 + 6)));
    }

    [Theory]
    [InlineData(0, "x", typeof(HoldDayNotAhead))]
    [InlineData(1, " ", typeof(HoldReasonMissing))]
    [InlineData(1, "Dispute", null)]
    public void A_hold_needs_a_day_ahead_and_a_reason(int days, string reason, Type? refusal) =>
        Assert.Equal(refusal, ReminderRules.MayHold(Of(), Due.AddDays(days), reason, Due).Failure?.GetType());

    [Theory]
    [InlineData(2, 8, 0, null)]
    [InlineData(2, 34, 0, null)]
    [InlineData(2, 7, 0, typeof(ReminderDaysOutOfOrder))]
    [InlineData(2, 35, 0, typeof(ReminderDaysOutOfOrder))]
    [InlineData(1, 0, 0, typeof(ReminderDaysOutOfOrder))]
    [InlineData(1, 1, 0.01, null)]
    [InlineData(1, 1, 0.001, typeof(ReminderFeeUnusable))]
    [InlineData(3, 900, -1, typeof(ReminderFeeUnusable))]
    public void A_step_lies_between_its_neighbours_and_its_fee_is_money(int number, int days, decimal fee, Type? refusal) => Assert.Equal(
        refusal, ReminderRules.MayKeep(new ReminderStep { Number = number, DaysAfterDue = days, Fee = fee, Title = "t", Text = "t" }, Steps, "EUR").Failure?.GetType());

    [Fact]
    public void A_fee_is_taken_once_whole_and_only_out_of_money_that_is_there()
    {
        var letter = new ReminderLetter { Fee = 4, Currency = "EUR" };
        Assert.True(ReminderRules.MayTakeFee(letter, "R-1", false, 4).IsDone);
        Assert.Equal(new ReminderFeeAboveCredit(4, 3.99m, "EUR"), ReminderRules.MayTakeFee(letter, "R-1", false, 3.99m).Failure);
        Assert.Equal(new ReminderFeeTaken("R-1"), ReminderRules.MayTakeFee(letter, "R-1", true, 9).Failure);
        Assert.Equal(new NoReminderFee("R-1"), ReminderRules.MayTakeFee(new ReminderLetter(), "R-1", false, 9).Failure);
        letter.FeeWaivedAt = DateTimeOffset.UnixEpoch;
        Assert.Equal(new ReminderFeeWaived("R-1"), ReminderRules.MayTakeFee(letter, "R-1", false, 9).Failure);
    }
}
