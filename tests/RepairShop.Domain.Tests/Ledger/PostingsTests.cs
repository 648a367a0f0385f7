using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Ledger;
using Xunit;

namespace RepairShop.Domain.Tests.Ledger;

public sealed class PostingsTests
{
    private static IReadOnlyList<(LedgerAccount, decimal)> Short(IEnumerable<JournalLine> lines) => [.. lines.Select(line => (line.Account, line.Amount))];

    private static List<JournalLine> Post(InvoiceKind kind, bool includesTax, int digits, params (LineKind Kind, PricedLine Line)[] lines)
    {
        var totals = Totals.Of([.. lines.Select(line => line.Line)], taxRegistered: true, includesTax, digits);
        var billed = lines.Zip(totals.LineAmounts, (line, amount) => new BilledLine(Postings.AccountOf(line.Kind), amount, line.Line.TaxName, line.Line.TaxPercent));
        return Postings.OfInvoice(kind, [.. billed], totals.Taxes, totals.Net, totals.Gross, digits);
    }

    [Fact]
    public void An_invoice_is_owed_by_the_customer_and_earned_by_kind_with_tax_apart() =>
        Assert.Equal(
            [(LedgerAccount.Receivables, 193.60m), (LedgerAccount.RevenueLabour, -120m), (LedgerAccount.RevenueParts, -40m), (LedgerAccount.Tax, -33.60m)],
            Short(Post(InvoiceKind.Invoice, false, 2, (LineKind.Labour, new(2, 60, "Standard", 21)), (LineKind.Part, new(1, 40, "Standard", 21)))));

    [Fact]
    public void A_credit_note_is_the_opposite_of_its_invoice_line_by_line()
    {
        (LineKind, PricedLine)[] lines = [(LineKind.Labour, new(1.5m, 59.99m, "Standard", 21)), (LineKind.Other, new(1, 7.35m, "Reduced", 9))];
        Assert.Equal(
            Post(InvoiceKind.Invoice, true, 2, lines).Select(line => (line.Account, line.TaxName, -line.Amount)),
            Post(InvoiceKind.CreditNote, true, 2, lines).Select(line => (line.Account, line.TaxName, line.Amount)));
    }

    [Fact]
    public void Prices_with_tax_are_shared_out_to_the_cent_and_what_is_left_over_goes_to_the_largest() =>
        // 10.00 with 21 % is 8.26 net; thirds of it would be 2.7533… each.
        Assert.Equal(
            [(LedgerAccount.Receivables, 10m), (LedgerAccount.RevenueLabour, -2.76m), (LedgerAccount.RevenueParts, -2.75m), (LedgerAccount.RevenueOther, -2.75m), (LedgerAccount.Tax, -1.74m)],
            Short(Post(InvoiceKind.Invoice, true, 2,
                (LineKind.Labour, new(1, 3.34m, "Standard", 21)), (LineKind.Part, new(1, 3.33m, "Standard", 21)), (LineKind.Other, new(1, 3.33m, "Standard", 21)))));

    [Fact]
    public void What_is_owed_beyond_net_and_tax_is_rounding() =>
        Assert.Equal(
            [(LedgerAccount.Receivables, 12.35m), (LedgerAccount.RevenueLabour, -12.33m), (LedgerAccount.Rounding, -0.02m)],
            Short(Postings.OfInvoice(InvoiceKind.Invoice, [new(LedgerAccount.RevenueLabour, 12.33m, "", 0)], [], 12.33m, 12.35m, 2)));

    /// <summary>120 of labour less a discount of 10 %, and 50 of deposit taken off: 58 are left to be billed, and revenue is 108.</summary>
    [Fact]
    public void A_deposit_leaves_its_account_with_its_own_amount_whatever_discount_the_rest_has() =>
        Assert.Equal(
            [(LedgerAccount.Receivables, 70.18m), (LedgerAccount.RevenueLabour, -108m), (LedgerAccount.Deposits, 50m), (LedgerAccount.Tax, -12.18m)],
            Short(Postings.OfInvoice(
                InvoiceKind.Invoice, [new(LedgerAccount.RevenueLabour, 120, "Standard", 21), new(LedgerAccount.Deposits, -50, "Standard", 21)],
                [new TaxTotal("Standard", 21, 58, 12.18m)], 58, 70.18m, 2)));

    [Fact]
    public void A_deposit_invoice_earns_nothing_yet() =>
        Assert.Equal(
            [(LedgerAccount.Receivables, 60.50m), (LedgerAccount.Deposits, -50m), (LedgerAccount.Tax, -10.50m)],
            Short(Postings.OfInvoice(InvoiceKind.Invoice, [new(LedgerAccount.Deposits, 50, "Standard", 21)], [new TaxTotal("Standard", 21, 50, 10.50m)], 50, 60.50m, 2)));

    [Fact]
    public void A_repair_billed_at_nothing_leaves_no_line() =>
        Assert.Empty(Post(InvoiceKind.Invoice, false, 2, (LineKind.Labour, new(0, 60, "Standard", 21))));

    [Theory]
    [InlineData(PaymentMethod.Cash, LedgerAccount.Cash)]
    [InlineData(PaymentMethod.BankTransfer, LedgerAccount.Bank)]
    [InlineData(PaymentMethod.Card, LedgerAccount.MoneyUnderWay)]
    [InlineData(PaymentMethod.Cheque, LedgerAccount.MoneyUnderWay)]
    public void Money_lies_where_its_kind_says(PaymentMethod method, LedgerAccount account) =>
        Assert.Equal([(account, 50m), (LedgerAccount.Receivables, -50m)], Short(Postings.OfPayment(50, Postings.AccountOf(method))));

    /// <summary>Random lines, rates, signs and currencies; the seed is fixed, so that a failure can be looked at again.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    [InlineData(3)]
    public void Whatever_is_billed_the_entry_balances_and_its_parts_are_the_papers_totals(int digits)
    {
        var random = new Random(20261125 + digits);
        (string, decimal)[] rates = [("Standard", 21), ("Reduced", 9), ("Odd", 7.7m), ("Zero", 0)];
        for (var round = 0; round < 3000; round++)
        {
            var lines = Enumerable.Range(0, random.Next(1, 9)).Select(_ =>
            {
                var (name, percent) = rates[random.Next(rates.Length)];
                return ((LineKind)random.Next(4), new PricedLine(random.Next(-2, 12) + (random.Next(10000) / 10000m), random.Next(-300, 3000) / 7m, name, percent));
            }).ToArray();
            var (kind, includesTax) = (random.Next(2) == 0 ? InvoiceKind.Invoice : InvoiceKind.CreditNote, random.Next(2) == 0);
            var totals = Totals.Of([.. lines.Select(line => line.Item2)], true, includesTax, digits);
            var journal = Post(kind, includesTax, digits, lines);
            var sign = kind == InvoiceKind.Invoice ? 1 : -1;
            Assert.Equal(0, journal.Sum(line => line.Amount));
            Assert.All(journal, line => Assert.Equal(line.Amount, Math.Round(line.Amount, digits)));
            Assert.DoesNotContain(journal, line => line.Amount == 0 || line.Account == LedgerAccount.Rounding);
            Assert.Equal(sign * totals.Gross, journal.Where(line => line.Account == LedgerAccount.Receivables).Sum(line => line.Amount));
            foreach (var tax in totals.Taxes)
            {
                var own = journal.Where(line => (line.TaxName, line.TaxPercent) == (tax.Name, tax.Percent) && line.Account != LedgerAccount.Receivables).ToList();
                Assert.Equal(-sign * tax.Tax, own.Where(line => line.Account == LedgerAccount.Tax).Sum(line => line.Amount));
                Assert.Equal(-sign * tax.Net, own.Where(line => line.Account != LedgerAccount.Tax).Sum(line => line.Amount));
            }
        }
    }
}
