using FsCheck;
using FsCheck.Fluent;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using Xunit;

namespace RepairShop.Domain.Tests.Invoices;

public sealed class CreditTests
{
    private static Invoice Issued(params InvoiceLine[] lines)
    {
        var invoice = new Invoice { Number = "I-2026-0001", IssuedAt = DateTimeOffset.UnixEpoch, Currency = "EUR", TaxRegistered = true, Lines = [.. lines] };
        return Sum(invoice, invoice.Totals());
    }

    private static InvoiceLine Line(decimal quantity, decimal price, decimal percent = 10) =>
        new() { Text = "Work", Quantity = quantity, Unit = "h", UnitPrice = price, TaxName = "VAT", TaxPercent = percent };

    private static Invoice Sum(Invoice invoice, Totals totals)
    {
        (invoice.Net, invoice.Tax, invoice.Gross, invoice.CashRounding) = (totals.Net, totals.Tax, totals.Gross, totals.CashRounding);
        invoice.Taxes = [.. totals.Taxes.Select(tax => new InvoiceTax { Category = tax.Category, Name = tax.Name, Percent = tax.Percent, Base = tax.Net, Tax = tax.Tax })];
        return invoice;
    }

    /// <summary>As the service does it: lines, then figures that never go above what is left.</summary>
    private static Results.Result<Invoice> Credit(Invoice invoice, List<Invoice> before, CreditRequest request)
    {
        var left = CreditLeft.Of(invoice, before);
        var lines = CreditDrafting.LinesOf(invoice, left, request);
        if (!lines.IsDone)
            return lines.Failure;
        var note = new Invoice
        {
            Kind = InvoiceKind.CreditNote,
            CreditsId = invoice.Id,
            Currency = invoice.Currency,
            TaxRegistered = invoice.TaxRegistered,
            PricesIncludeTax = invoice.PricesIncludeTax,
            TaxRounding = invoice.TaxRounding,
            Lines = lines.Value,
            Changes = request.IsEverything && before.Count == 0 ? invoice.Changes : [],
        };
        var totals = left.Limit(note);
        return totals.IsDone ? Sum(note, totals.Value) : totals.Failure;
    }

    [Fact]
    public void Two_halves_give_back_the_tax_once_where_rounding_would_give_it_twice()
    {
        var invoice = Issued(Line(2, 5.05m)); // 10.10 and 1.01 tax; a half alone would be 0.505 → 0.51
        var half = new CreditRequest([new CreditedLine(invoice.Lines[0].Id, 1)], []);
        var first = Credit(invoice, [], half).Value!;
        var second = Credit(invoice, [first], half).Value!;
        Assert.Equal((0.51m, 0.50m), (first.Tax, second.Tax));
        Assert.Equal(invoice.Gross, first.Gross + second.Gross);
        Assert.True(CreditLeft.Of(invoice, [first, second]).IsNothing);
    }

    [Fact]
    public void A_line_is_not_given_back_twice()
    {
        var invoice = Issued(Line(2, 50));
        var first = Credit(invoice, [], new CreditRequest([new CreditedLine(invoice.Lines[0].Id, 1.5m)], [])).Value!;
        Assert.Equal(new CreditAboveLine("Work", 1, 0.5m, "h"), Credit(invoice, [first], new CreditRequest([new CreditedLine(invoice.Lines[0].Id, 1)], [])).Failure);
        Assert.Equal(new CreditAboveLine("Work", 0, 0.5m, "h"), Credit(invoice, [first], new CreditRequest([new CreditedLine(invoice.Lines[0].Id, 0)], [])).Failure);
    }

    [Theory]
    [InlineData(100, null)]
    [InlineData(100.01, typeof(CreditAboveRate))]
    [InlineData(0, typeof(CreditAmountNotPositive))]
    [InlineData(-5, typeof(CreditAmountNotPositive))]
    public void An_amount_at_a_rate_is_above_zero_and_not_above_what_is_left(decimal amount, Type? refusal)
    {
        var invoice = Issued(Line(1, 100), Line(1, 500, 20));
        var asked = new CreditedAmount(new TaxKey(TaxCategory.Standard, "VAT", 10), amount);
        Assert.Equal(refusal, Credit(invoice, [], new CreditRequest([], [asked])).Failure?.GetType());
    }

    [Fact]
    public void A_rate_the_invoice_does_not_have_can_not_be_given_back()
    {
        var refused = Credit(Issued(Line(1, 100)), [], new CreditRequest([], [new CreditedAmount(new TaxKey(TaxCategory.Standard, "VAT", 25), 1)])).Failure;
        Assert.Equal(new CreditAboveRate("VAT", 25, 1, 0, "EUR"), refused);
    }

    [Fact]
    public void A_line_goes_back_with_its_share_of_a_discount_on_the_whole_invoice()
    {
        var invoice = Issued(Line(1, 100), Line(1, 300));
        invoice.Changes.Add(new InvoiceChange { Text = "Goodwill", Percent = -10 });
        Sum(invoice, invoice.Totals());
        var note = Credit(invoice, [], new CreditRequest([new CreditedLine(invoice.Lines[0].Id, 1)], [])).Value!;
        Assert.Equal((90m, 9m), (note.Net, note.Tax));
    }

    [Fact]
    public void The_rest_after_a_part_is_exactly_what_is_left_cash_rounding_included()
    {
        var invoice = Issued(Line(1, 99.97m), Line(1, 0.55m, 20));
        (invoice.CashStep, invoice.Currency) = (0.05m, "CHF");
        Sum(invoice, invoice.Totals());
        var part = Credit(invoice, [], new CreditRequest([], [new CreditedAmount(new TaxKey(TaxCategory.Standard, "VAT", 10), 33.33m)])).Value!;
        var rest = Credit(invoice, [part], CreditRequest.Everything).Value!;
        Assert.Equal(invoice.Payable, part.Payable + rest.Payable);
        Assert.Equal(0, part.CashRounding);
        Assert.True(CreditLeft.Of(invoice, [part, rest]).IsNothing);
    }

    [Fact]
    public void The_sum_of_credits_is_the_invoice_for_any_invoice_given_back_in_three_parts() =>
        Prop.ForAll(SomeInvoices.Any, invoice =>
        {
            Sum(invoice, invoice.Totals());
            var credits = new List<Invoice>();
            var line = invoice.Lines.MaxBy(one => one.Quantity * one.UnitPrice)!;
            if (Credit(invoice, credits, new CreditRequest([new CreditedLine(line.Id, Totals.Round(line.Quantity / 2, 3))], [])) is { IsDone: true, Value: var half })
                credits.Add(half);
            var left = CreditLeft.Of(invoice, credits);
            var rate = left.Rates.MaxBy(one => one.Net)!;
            var third = Totals.Round(CreditLeft.InPrices(rate, invoice.PricesIncludeTax) / 3, Amount.Digits(invoice.Currency));
            if (third > 0 && Credit(invoice, credits, new CreditRequest([], [new CreditedAmount(rate.Key, third)])) is { IsDone: true, Value: var part })
                credits.Add(part);
            var rest = Credit(invoice, credits, CreditRequest.Everything);
            return rest.IsDone && credits.Append(rest.Value).Sum(credit => credit.Payable) == invoice.Payable
                && credits.Append(rest.Value).Sum(credit => credit.Tax) == invoice.Tax;
        }).Check(Config.QuickThrowOnFailure.WithMaxTest(500));

    [Fact]
    public void A_deposit_is_taken_off_once_and_no_tax_is_charged_twice()
    {
        var deposit = Issued(Line(1, 40, 20));
        deposit.Basis = InvoiceBasis.Deposit;
        var final = Issued(Line(1, 100, 20));
        final.Lines.AddRange(Deposits.LinesFor([deposit], pricesIncludeTax: false));
        Sum(final, final.Totals());
        Assert.Equal((60m, 12m, 72m), (final.Net, final.Tax, final.Gross));
        Assert.Empty(Deposits.LinesFor([deposit, final], pricesIncludeTax: false));
        Assert.Equal(100m * 1.2m, deposit.Gross + final.Gross);
    }

    [Fact]
    public void What_was_given_back_of_a_deposit_is_not_taken_off_and_a_credited_final_invoice_frees_it_again()
    {
        var deposit = Issued(Line(1, 40, 20));
        deposit.Basis = InvoiceBasis.Deposit;
        var part = Credit(deposit, [], new CreditRequest([], [new CreditedAmount(new TaxKey(TaxCategory.Standard, "VAT", 20), 15)])).Value!;
        Assert.Equal(25m, Assert.Single(Deposits.LinesFor([deposit, part], pricesIncludeTax: false)).UnitPrice);
        var final = Issued([Line(1, 100, 20), .. Deposits.LinesFor([deposit, part], pricesIncludeTax: false)]);
        var whole = Credit(final, [], CreditRequest.Everything).Value!;
        Assert.Equal(final.Gross, whole.Gross);
        Assert.Equal(25m, Assert.Single(Deposits.LinesFor([deposit, part, final, whole], pricesIncludeTax: false)).UnitPrice);
    }
}
