using RepairShop.Domain.Invoices;
using RepairShop.Domain.Repairs;
using Xunit;

namespace RepairShop.Domain.Tests.Repairs;

public sealed class BookingRulesTests
{
    private static readonly DateOnly Today = new(2026, 11, 24);

    private static Type? Refused(Action<Repair> change)
    {
        var repair = new Repair { Complaint = "Slow" };
        change(repair);
        return BookingRules.Check(repair, Today).Failure?.GetType();
    }

    [Fact]
    public void Today_and_five_years_ahead_are_the_last_days_taken()
    {
        Assert.Null(Refused(repair => repair.WantedBy = Today));
        Assert.Equal(typeof(WantedByPassed), Refused(repair => repair.WantedBy = Today.AddDays(-1)));
        Assert.Null(Refused(repair => repair.WantedBy = Today.AddYears(5)));
        Assert.Equal(typeof(DateTooFar), Refused(repair => repair.WantedBy = Today.AddYears(5).AddDays(1)));
        Assert.Equal(typeof(PromisedBeforeBooking), Refused(repair => repair.PromisedFor = Today.AddDays(-1)));
        Assert.Equal(typeof(DateTooFar), Refused(repair => repair.PromisedFor = new DateOnly(2206, 1, 1)));
    }

    [Fact]
    public void Amounts_lie_between_nothing_and_what_the_book_can_hold()
    {
        Assert.Null(Refused(repair => repair.DeclaredValue = 0));
        Assert.Equal(typeof(AmountBelowZero), Refused(repair => repair.DeclaredValue = -0.01m));
        Assert.Null(Refused(repair => repair.PreApprovedLimit = 25_000_000)); // no more than a few hundred euro in a currency without minor units
        Assert.Equal(typeof(AmountTooLarge), Refused(repair => repair.PreApprovedLimit = Amount.Most));
        Assert.Contains("less than 100,000,000,000", new AmountTooLarge("PreApprovedLimit", "Pre-approved limit").Message);
    }

    [Fact]
    public void A_complaint_and_the_way_of_a_consent_are_asked_for()
    {
        Assert.Equal(typeof(ComplaintMissing), Refused(repair => repair.Complaint = ""));
        Assert.Equal(typeof(ConsentHowMissing), Refused(repair => repair.ConsentBy = "Ines"));
    }

    [Theory]
    [InlineData("2026-08-31", 6, "2027-02-28")]
    [InlineData("2027-08-31", 6, "2028-02-29")]
    [InlineData("2026-01-15", 12, "2027-01-15")]
    public void A_warranty_ends_so_many_calendar_months_on(string returned, int months, string until)
    {
        var (from, last) = (DateOnly.ParseExact(returned, "yyyy-MM-dd"), DateOnly.ParseExact(until, "yyyy-MM-dd"));
        Assert.Equal(last, Warranty.Until(from, months));
        Assert.True(Warranty.Covers(from, months, last));
        Assert.False(Warranty.Covers(from, months, last.AddDays(1)));
        Assert.False(Warranty.Covers(from, 0, from));
    }

    [Fact]
    public void The_trail_marks_the_latest_fact_of_the_stage_and_says_what_is_to_come()
    {
        var at = new DateTimeOffset(2026, 11, 3, 9, 0, 0, TimeSpan.Zero);
        var steps = Trail.Of(new TrailFacts
        {
            Stage = Stage.Ready,
            BookedAt = at,
            BenchAt = at.AddDays(2),
            TestedAt = at.AddDays(9),
            ReadyAt = at.AddDays(10),
            Offers = [new OfferFact(1, at.AddDays(1), Today, null, null, null)],
        }, Today);
        Assert.Equal(["booked in", "estimate sent", "on the bench", "tested after service", "ready", "home"], steps.Select(step => step.Text));
        Assert.Equal("ready", Assert.Single(steps, step => step.Kind == TrailKind.Now).Text);
    }
}
