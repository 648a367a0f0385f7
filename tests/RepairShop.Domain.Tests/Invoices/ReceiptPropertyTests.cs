using FsCheck;
using FsCheck.Fluent;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Ledger;
using Xunit;

namespace RepairShop.Domain.Tests.Invoices;

/// <summary>Random customers with what they owe, and random money.</summary>
public sealed class ReceiptPropertyTests
{
    private static readonly DateOnly Today = new(2026, 11, 25);

    private static readonly Arbitrary<(decimal Amount, List<OwedInvoice> Owed)> Any = (
        from cents in Gen.Choose(1, 200_000)
        from owed in Gen.ListOf(Gen.Zip(Gen.Choose(1, 60_000), Gen.Choose(0, 40)))
        select (cents / 100m, owed.Select((one, index) => new OwedInvoice(
            Guid.NewGuid(), one.Item2 % 3 == 0 ? null : Today.AddDays(-one.Item2), Today.AddDays(-40 - index % 5), $"I-{index:0000}", one.Item1 / 100m)).ToList())).ToArbitrary();

    [Fact]
    public void What_is_shared_out_and_what_is_left_over_is_what_came_in() => Prop.ForAll(Any, one =>
    {
        var shares = ReceiptRules.Propose(one.Amount, one.Owed);
        var left = one.Amount - shares.Sum(share => share.Amount);
        Assert.Equal(Math.Max(0, one.Amount - one.Owed.Sum(invoice => invoice.Owed)), left);
    }).QuickCheckThrowOnFailure();

    [Fact]
    public void No_invoice_gets_more_than_it_is_owed_and_a_later_one_nothing_before_an_earlier_one_is_paid() => Prop.ForAll(Any, one =>
    {
        var shares = ReceiptRules.Propose(one.Amount, one.Owed);
        var inOrder = ReceiptRules.InOrder(one.Owed).ToList();
        Assert.Equal(inOrder.Take(shares.Count).Select(invoice => invoice.Id), shares.Select(share => share.InvoiceId));
        Assert.All(shares.SkipLast(1).Zip(inOrder), pair => Assert.Equal(pair.Second.Owed, pair.First.Amount));
        Assert.All(shares.Zip(inOrder), pair => Assert.InRange(pair.First.Amount, 0.01m, pair.Second.Owed));
        Assert.Equal(inOrder.Select(invoice => invoice.Due ?? invoice.Issued).Order(), inOrder.Select(invoice => invoice.Due ?? invoice.Issued));
    }).QuickCheckThrowOnFailure();

    [Fact]
    public void What_is_proposed_may_be_received_as_it_stands() => Prop.ForAll(Any, one =>
    {
        var customer = Guid.NewGuid();
        var invoices = one.Owed.ConvertAll(owed => new Invoice { Id = owed.Id, CustomerId = customer, Number = owed.Number, IssuedAt = DateTimeOffset.UnixEpoch, Currency = "EUR", Gross = owed.Owed });
        var receipt = new Receipt { CustomerId = customer, Currency = "EUR", Amount = one.Amount, PaidOn = Today };
        var shares = ReceiptRules.Propose(one.Amount, one.Owed);
        Assert.Null(ReceiptRules.MayReceive(receipt, shares, invoices, keepsRest: true, Today).Failure);
        var left = one.Amount - shares.Sum(share => share.Amount);
        Assert.Equal(left == 0 ? null : new RestNotShared(left, "EUR"), ReceiptRules.MayReceive(receipt, shares, invoices, keepsRest: false, Today).Failure);
    }).QuickCheckThrowOnFailure();

    [Fact]
    public void Every_movement_of_credit_and_every_write_off_balances_in_the_journal()
    {
        var any = from cents in Gen.Choose(-50_000, 50_000)
                  where cents != 0
                  from kind in Gen.Elements(Enum.GetValues<CreditKind>())
                  from method in Gen.Elements(Enum.GetValues<PaymentMethod>().Where(method => method != PaymentMethod.CustomerCredit).ToArray())
                  select new CustomerCredit { Amount = cents / 100m, Kind = kind, Method = method };
        Prop.ForAll(any.ToArbitrary(), credit =>
        {
            var lines = Postings.OfCredit(credit);
            Assert.Equal((2, 0m), (lines.Count, lines.Sum(line => line.Amount)));
            Assert.Equal(-credit.Amount, lines.Single(line => line.Account == LedgerAccount.CustomerCredit).Amount);
            Assert.Equal(0, Postings.OfWriteOff(credit.Amount).Sum(line => line.Amount));
        }).QuickCheckThrowOnFailure();
    }
}
