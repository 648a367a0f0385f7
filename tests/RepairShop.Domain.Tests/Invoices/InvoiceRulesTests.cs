using RepairShop.Domain.Invoices;
using Xunit;

namespace RepairShop.Domain.Tests.Invoices;

/// <summary>Every action against every state: allowed, or refused by its name.</summary>
public sealed class InvoiceRulesTests
{
    private static readonly DateOnly Today = new(2026, 11, 24);

    private static Invoice Draft(decimal price = 100) => new()
    {
        Currency = "EUR",
        Lines = [new InvoiceLine { Text = "Labour", Quantity = 1, UnitPrice = price }],
    };

    private static Invoice Issued(decimal gross = 100)
    {
        var invoice = Draft(gross);
        (invoice.IssuedAt, invoice.Number, invoice.Gross) = (new DateTimeOffset(2026, 11, 1, 9, 0, 0, TimeSpan.Zero), "I-2026-0001", gross);
        return invoice;
    }

    private static Invoice CreditNote()
    {
        var note = Issued();
        (note.Kind, note.Number) = (InvoiceKind.CreditNote, "C-2026-0001");
        return note;
    }

    private static Totals Sum(Invoice invoice) =>
        Totals.Of([.. invoice.Lines.Select(line => new PricedLine(line.Quantity, line.UnitPrice, "", 0))], false, false, 2);

    public sealed class Issuing
    {
        [Theory]
        [InlineData(100, 0, 100, null)]
        [InlineData(100, 0, 99.99, typeof(AboveApproved))]
        [InlineData(100, 0.01, 100, typeof(AboveApproved))]
        [InlineData(60, 40, 100, null)]
        public void Nothing_above_the_approved_amount_counting_what_was_invoiced_before(decimal price, decimal already, decimal approved, Type? refusal) =>
            Assert.Equal(refusal, InvoiceRules.MayIssue(Draft(price), Sum(Draft(price)), already, approved).Failure?.GetType());

        [Fact]
        public void The_refusal_names_both_amounts()
        {
            var refusal = InvoiceRules.MayIssue(Draft(120), Sum(Draft(120)), 0, 100).Failure;
            Assert.Equal(new AboveApproved(120, 0, 100, "EUR"), refusal);
            Assert.Contains("120", refusal!.Message);
            Assert.Contains("approved 100", refusal.Message);
            Assert.Contains("record further consent", refusal.Message);
        }

        [Fact]
        public void Without_any_consent_nothing_is_charged() =>
            Assert.Equal(new NothingApproved(100, "EUR"), InvoiceRules.MayIssue(Draft(), Sum(Draft()), 0, null).Failure);

        [Fact]
        public void A_warranty_repair_that_charges_nothing_needs_no_consent() =>
            Assert.True(InvoiceRules.MayIssue(Draft(0), Sum(Draft(0)), 0, null).IsDone);

        [Fact]
        public void An_issued_one_is_not_issued_again() =>
            Assert.Equal(new InvoiceAlreadyIssued("I-2026-0001"), InvoiceRules.MayIssue(Issued(), Sum(Issued()), 0, 500).Failure);

        [Fact]
        public void An_empty_one_is_not_issued()
        {
            var empty = Draft();
            empty.Lines.Clear();
            Assert.Equal(new InvoiceHasNoLines(), InvoiceRules.MayIssue(empty, Sum(empty), 0, 500).Failure);
        }

        [Fact]
        public void A_draft_may_be_changed_and_an_issued_one_not()
        {
            Assert.True(InvoiceRules.MayChange(Draft()).IsDone);
            Assert.Equal(new InvoiceAlreadyIssued("I-2026-0001"), InvoiceRules.MayChange(Issued()).Failure);
        }
    }

    public sealed class Crediting
    {
        [Fact]
        public void An_issued_invoice_may_be_credited_once()
        {
            Assert.True(InvoiceRules.MayCredit(Issued(), null, "Wrong address").IsDone);
            Assert.Equal(new AlreadyCredited("I-2026-0001", "C-2026-0001"), InvoiceRules.MayCredit(Issued(), "C-2026-0001", "Again").Failure);
        }

        [Fact]
        public void A_deposit_is_credited_after_the_invoice_that_takes_it_off() =>
            Assert.Equal(new DepositTakenOff("I-2026-0001", "I-2026-0002"), InvoiceRules.MayCredit(Issued(), null, "Wrong", takenOffBy: "I-2026-0002").Failure);

        [Fact]
        public void Neither_a_draft_nor_a_credit_note_is_credited()
        {
            Assert.Equal(new InvoiceNotIssued(), InvoiceRules.MayCredit(Draft(), null, "x").Failure);
            Assert.Equal(new CreditOfCredit("C-2026-0001"), InvoiceRules.MayCredit(CreditNote(), null, "x").Failure);
        }

        [Fact]
        public void A_reason_is_needed_because_it_is_printed() =>
            Assert.Equal(new CreditReasonMissing(), InvoiceRules.MayCredit(Issued(), null, "  ").Failure);
    }

    public sealed class Paying
    {
        [Theory]
        [InlineData(100, null)]
        [InlineData(0.01, null)]
        [InlineData(0, typeof(PaymentNotPositive))]
        [InlineData(-1, typeof(PaymentNotPositive))]
        [InlineData(100.01, typeof(PaymentAboveBalance))]
        [InlineData(10.005, typeof(TooManyDecimals))]
        public void A_payment_is_above_zero_fits_the_currency_and_does_not_exceed_the_balance(decimal amount, Type? refusal) =>
            Assert.Equal(refusal, InvoiceRules.MayPay(Issued(), amount, Today, Today).Failure?.GetType());

        [Fact]
        public void Nobody_paid_tomorrow() =>
            Assert.Equal(new PaidInFuture(Today.AddDays(1)), InvoiceRules.MayPay(Issued(), 10, Today.AddDays(1), Today).Failure);

        [Fact]
        public void A_draft_or_a_credit_note_is_not_paid()
        {
            Assert.Equal(new InvoiceNotIssued(), InvoiceRules.MayPay(Draft(), 10, Today, Today).Failure);
            Assert.Equal(new CreditOfCredit("C-2026-0001"), InvoiceRules.MayPay(CreditNote(), 10, Today, Today).Failure);
        }

        [Fact]
        public void Nothing_goes_back_while_nothing_is_owed_back() =>
            Assert.Equal(new RefundAboveOwed(10, 0, "EUR"), InvoiceRules.MayRefund(Issued(), 10, Today, Today).Failure);

        [Fact]
        public void A_payment_is_taken_back_once_and_a_take_back_never()
        {
            var payment = new Payment { Amount = 50 };
            Assert.True(InvoiceRules.MayTakeBack(Issued(), payment, takenBackAlready: false).IsDone);
            Assert.Equal(new PaymentTakenBackAlready(), InvoiceRules.MayTakeBack(Issued(), payment, takenBackAlready: true).Failure);
            Assert.Equal(new TakeBackOfTakeBack(), InvoiceRules.MayTakeBack(Issued(), new Payment { TakesBackId = payment.Id }, false).Failure);
        }
    }
}
