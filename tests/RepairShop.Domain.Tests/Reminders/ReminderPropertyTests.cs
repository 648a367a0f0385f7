using FsCheck;
using FsCheck.Fluent;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Reminders;
using Xunit;
using static RepairShop.Domain.Tests.Reminders.LateInvoices;

namespace RepairShop.Domain.Tests.Reminders;

/// <summary>Random histories of four invoices of 100.00 each: paid, given back, credited, written off, reminded.</summary>
public sealed class ReminderPropertyTests
{
    private enum Deed
    {
        Pay,
        GiveBack,
        Credit,
        WriteOff,
        Remind,
    }

    private static readonly Arbitrary<List<(Deed Deed, int Invoice, decimal Amount, int Days)>> Histories = (
        from deeds in Gen.ListOf(
            from deed in Gen.Elements(Enum.GetValues<Deed>())
            from invoice in Gen.Choose(0, 3)
            from cents in Gen.Elements(1, 1250, 5000, 9999, 10000)
            from days in Gen.Choose(0, 12)
            select (deed, invoice, cents / 100m, days))
        select deeds.ToList()).ToArbitrary();

    /// <summary>As the rules and the database's checks allow it; what they refuse does not happen.</summary>
    private static void Do(Invoice invoice, Deed deed, decimal amount, DateOnly today)
    {
        switch (deed)
        {
            case Deed.Pay when InvoiceRules.MayPay(invoice, amount, today, today).IsDone:
                Put(invoice, nameof(invoice.Paid), invoice.Paid + amount);
                break;
            case Deed.GiveBack when InvoiceRules.MayRefund(invoice, amount, today, today).IsDone:
                Put(invoice, nameof(invoice.Paid), invoice.Paid - amount);
                break;
            case Deed.Credit when invoice.Credited + amount <= invoice.Gross && (invoice.WrittenOff == 0 || amount <= invoice.Balance):
                Put(invoice, nameof(invoice.Credited), invoice.Credited + amount);
                break;
            case Deed.WriteOff when InvoiceRules.MayWriteOff(invoice, amount, "not to be had").IsDone:
                Put(invoice, nameof(invoice.WrittenOff), invoice.WrittenOff + amount);
                break;
        }
    }

    [Fact]
    public void Whatever_was_paid_credited_and_written_off_a_reminder_names_no_more_than_is_due_and_no_step_twice() => Prop.ForAll(Histories, history =>
    {
        Invoice[] invoices = [.. Enumerable.Range(1, 4).Select(number => Of(number: $"I-2026-{number:0000}"))];
        var sent = invoices.ToDictionary(invoice => invoice, _ => new List<SentReminder>());
        var today = Due;
        foreach (var (deed, at, amount, days) in history)
        {
            today = today.AddDays(days);
            Do(invoices[at], deed, amount, today);
            if (deed != Deed.Remind)
                continue;
            var asked = invoices.Select(invoice => (Invoice: invoice, Step: ReminderRules.DueStep(Case(invoice, [.. sent[invoice]]), Steps, today))).ToList();
            List<RemindedInvoice> due = [.. asked.Where(one => one.Step.IsDone).Select(one => new RemindedInvoice(one.Invoice, one.Step.Value!))];
            if (due.Count == 0)
                continue;
            var figures = ReminderFigures.Of(due, [], asksFees: true, today);
            Assert.Equal(due.Count, figures.Lines.Count);
            Assert.All(figures.Lines, line =>
            {
                var invoice = invoices.Single(one => one.Number == line.Number);
                Assert.InRange(line.Due, 0.01m, 100 - invoice.Paid - invoice.Credited - invoice.WrittenOff);
                Assert.Equal(line.Due, line.Amount - line.Paid - line.Credited - line.WrittenOff);
            });
            Assert.Equal(figures.Lines.Sum(line => line.Due), figures.Due);
            Assert.True(figures.Due <= invoices.Sum(invoice => Math.Max(0, invoice.Balance)));
            foreach (var one in due)
            {
                Assert.Equal(sent[one.Invoice].Count + 1, one.Step.Number); // in order, none left out
                Assert.DoesNotContain(sent[one.Invoice], before => before.On == today);
                sent[one.Invoice].Add(new SentReminder(one.Step.Number, today, figures.PayBy));
            }
        }
    }).QuickCheckThrowOnFailure();

    [Fact]
    public void One_letter_asks_for_one_fee_that_of_its_furthest_step_and_for_what_is_open_of_earlier_ones()
    {
        List<RemindedInvoice> due = [new(Of(paid: 30, number: "I-2026-0002"), Steps[0]), new(Of(), Steps[2]), new(Of(number: "I-2026-0003"), Steps[1])];
        ReminderFeeFacts[] earlier = [new("R-2026-0001", Due.AddDays(21), 4)];
        var figures = ReminderFigures.Of(due, earlier, asksFees: true, Due.AddDays(40));
        Assert.Equal((8m, 270m, 282m, "Last reminder", Due.AddDays(47)), (figures.Fee, figures.Due, figures.Total, figures.Leading.Title, figures.PayBy));
        Assert.Equal(["I-2026-0001", "I-2026-0002", "I-2026-0003"], figures.Lines.Select(line => line.Number));
        Assert.All(figures.Lines, line => Assert.Equal(40, line.DaysLate));
        var without = ReminderFigures.Of(due, earlier, asksFees: false, Due.AddDays(40));
        Assert.Equal((0m, 270m, 0), (without.Fee, without.Total, without.EarlierFees.Count));
    }
}
