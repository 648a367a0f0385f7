using RepairShop.Domain.Estimates;
using Xunit;

namespace RepairShop.Domain.Tests.Estimates;

public sealed class CeilingTests
{
    private static readonly DateTimeOffset Monday = new(2026, 11, 2, 9, 0, 0, TimeSpan.Zero);

    private static Consent After(int days, decimal upTo) => new(Monday.AddDays(days), upTo);

    [Fact]
    public void Nothing_agreed_means_nothing_may_be_invoiced() => Assert.Null(Ceiling.Of([]));

    [Fact]
    public void The_latest_word_counts_whatever_the_order_they_are_read_in() =>
        Assert.Equal(250, Ceiling.Of([After(3, 250), After(0, 100), After(1, 300)]));

    [Fact]
    public void A_later_no_lowers_what_an_earlier_yes_allowed() => Assert.Equal(25, Ceiling.Of([After(0, 300), After(1, 25)]));
}
