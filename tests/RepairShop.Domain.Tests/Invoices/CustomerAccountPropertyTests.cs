using FsCheck;
using FsCheck.Fluent;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using Xunit;

namespace RepairShop.Domain.Tests.Invoices;

/// <summary>Random histories: invoices, money for one or several of them, write-offs, credit used and given back.</summary>
public sealed class CustomerAccountPropertyTests
{
    private static readonly DateOnly Start = new(2026, 1, 1);

    private static readonly Guid[] Invoices = [.. Enumerable.Range(0, 4).Select(_ => Guid.NewGuid())];

    private static readonly Dictionary<Guid, DateOnly?> Due = Invoices.Select((id, index) => (id, index)).ToDictionary(one => one.id, one => one.index == 3 ? (DateOnly?)null : Start.AddDays(one.index * 30));

    private static readonly Arbitrary<(List<AccountEvent> Events, int From, int Days)> Any = (
        from events in Gen.ListOf(
            from day in Gen.Choose(0, 200)
            from cents in Gen.Choose(1, 90_000)
            from invoice in Gen.Choose(0, 3)
            from what in Gen.Elements(StatementLineKind.Invoice, StatementLineKind.Payment, StatementLineKind.WriteOff, StatementLineKind.GivenBack)
            from hidden in Gen.Elements(false, false, true)
            select Event(day, cents / 100m, Invoices[invoice], what, hidden))
        from start in Gen.Choose(0, 200)
        from days in Gen.Choose(0, 100)
        select (events.ToList(), start, days)).ToArbitrary();

    private static AccountEvent Event(int day, decimal amount, Guid invoice, StatementLineKind kind, bool hidden)
    {
        var signed = kind is StatementLineKind.Invoice or StatementLineKind.GivenBack ? amount : -amount;
        var at = DateTimeOffset.UnixEpoch.AddDays(day);
        return hidden ? new(Start.AddDays(day), at, null, invoice, "", "", 0, signed)
            : new(Start.AddDays(day), at, kind, kind == StatementLineKind.GivenBack ? null : invoice, "", "", signed, kind == StatementLineKind.GivenBack ? 0 : signed);
    }

    [Fact]
    public void Opening_and_every_line_are_the_closing_and_the_running_balance_says_so() => Prop.ForAll(Any, one =>
    {
        var span = CustomerAccount.Of(one.Events, Due, Start.AddDays(one.From), Start.AddDays(one.From + one.Days));
        Assert.Equal(span.Closing, span.Opening + span.Lines.Sum(line => line.Amount));
        var balance = span.Opening;
        Assert.All(span.Lines, line => Assert.Equal(balance += line.Amount, line.Balance));
        Assert.Equal(span.Lines.Select(line => line.On).Order(), span.Lines.Select(line => line.On));
    }).QuickCheckThrowOnFailure();

    [Fact]
    public void What_is_open_by_age_less_credit_less_what_goes_back_is_the_closing() => Prop.ForAll(Any, one =>
    {
        var until = Start.AddDays(one.From + one.Days);
        var span = CustomerAccount.Of(one.Events, Due, Start.AddDays(one.From), until);
        Assert.Equal(span.Closing, span.Ages.Together - span.Credit - span.ToGiveBack);
        var open = Invoices.ToDictionary(id => id, id => one.Events.Where(happened => happened.InvoiceId == id && happened.On <= until).Sum(happened => happened.OnInvoice));
        Assert.Equal(open.Values.Sum(), span.Ages.Together - span.ToGiveBack);
        Assert.Equal(open.Where(pair => pair.Value > 0 && Due[pair.Key] < until).Sum(pair => pair.Value), span.Ages.Overdue);
    }).QuickCheckThrowOnFailure();

    [Fact]
    public void A_span_opens_where_the_one_before_closed() => Prop.ForAll(Any, one =>
    {
        var day = Start.AddDays(one.From);
        Assert.Equal(
            CustomerAccount.Of(one.Events, Due, Start, day).Closing, CustomerAccount.Of(one.Events, Due, day.AddDays(1), day.AddDays(one.Days + 1)).Opening);
    }).QuickCheckThrowOnFailure();
}
