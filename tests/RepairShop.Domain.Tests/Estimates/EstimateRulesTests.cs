using RepairShop.Domain.Estimates;
using RepairShop.Domain.Results;
using Xunit;

namespace RepairShop.Domain.Tests.Estimates;

/// <summary>Every action against every state: allowed, or refused by its name.</summary>
public sealed class EstimateRulesTests
{
    private static readonly DateOnly ValidUntil = new(2026, 11, 30);
    private static readonly DateTimeOffset Sent = new(2026, 11, 1, 9, 0, 0, TimeSpan.Zero);

    private static Estimate In(EstimateState state)
    {
        var estimate = new Estimate { Revision = 2, ValidUntil = ValidUntil, Lines = [new EstimateLine { Text = "Labour" }] };
        if (state != EstimateState.Draft)
            estimate.SentAt = Sent;
        if (state is EstimateState.Approved or EstimateState.Declined)
        {
            estimate.Answer = state == EstimateState.Approved ? EstimateAnswer.Approved : EstimateAnswer.Declined;
            (estimate.AnsweredAt, estimate.AnsweredBy) = (Sent.AddDays(1), "Ada Sample");
        }
        return estimate;
    }

    private static DateOnly Day(EstimateState state) => state == EstimateState.Lapsed ? ValidUntil.AddDays(1) : ValidUntil;

    public static TheoryData<EstimateState> States => [.. Enum.GetValues<EstimateState>()];

    [Theory, MemberData(nameof(States))]
    public void The_state_follows_from_the_facts(EstimateState state) => Assert.Equal(state, In(state).StateOn(Day(state)));

    [Theory, MemberData(nameof(States))]
    public void Only_a_draft_may_be_changed_or_sent(EstimateState state)
    {
        var (change, send) = (EstimateRules.MayChange(In(state)), EstimateRules.MaySend(In(state), null, Day(state)));
        if (state == EstimateState.Draft)
        {
            Assert.True(change.IsDone);
            Assert.True(send.IsDone);
            return;
        }
        Assert.Equal(new EstimateNotDraft(2), change.Failure);
        Assert.Equal(new EstimateNotDraft(2), send.Failure);
    }

    [Theory]
    [InlineData(EstimateState.Draft, typeof(EstimateNotSent))]
    [InlineData(EstimateState.Sent, null)]
    [InlineData(EstimateState.Approved, typeof(EstimateAlreadyAnswered))]
    [InlineData(EstimateState.Declined, typeof(EstimateAlreadyAnswered))]
    [InlineData(EstimateState.Lapsed, typeof(EstimateLapsed))]
    public void Only_a_sent_one_may_be_answered(EstimateState state, Type? refusal) =>
        Assert.Equal(refusal, EstimateRules.MayAnswer(In(state), latestSent: 2, Day(state)).Failure?.GetType());

    [Fact]
    public void It_may_be_answered_on_its_last_day_and_not_on_the_next()
    {
        Assert.True(EstimateRules.MayAnswer(In(EstimateState.Sent), 2, ValidUntil).IsDone);
        Assert.Equal(new EstimateLapsed(2, ValidUntil), EstimateRules.MayAnswer(In(EstimateState.Sent), 2, ValidUntil.AddDays(1)).Failure);
    }

    [Fact]
    public void A_revision_that_was_followed_by_another_is_not_answered_any_more() =>
        Assert.Equal(new EstimateSuperseded(2, 3), EstimateRules.MayAnswer(In(EstimateState.Sent), latestSent: 3, ValidUntil).Failure);

    [Theory]
    [InlineData(EstimateState.Draft, typeof(EstimateNotSent))]
    [InlineData(EstimateState.Sent, null)]
    [InlineData(EstimateState.Approved, null)]
    [InlineData(EstimateState.Declined, null)]
    [InlineData(EstimateState.Lapsed, null)]
    public void A_new_revision_may_follow_any_sent_one(EstimateState state, Type? refusal) =>
        Assert.Equal(refusal, EstimateRules.MayRevise(In(state), draft: null).Failure?.GetType());

    [Fact]
    public void One_draft_at_a_time() =>
        Assert.Equal(new EstimateDraftWaiting(3), EstimateRules.MayRevise(In(EstimateState.Sent), draft: 3).Failure);

    [Fact]
    public void An_empty_one_is_not_sent()
    {
        var empty = In(EstimateState.Draft);
        empty.Lines.Clear();
        Assert.Equal(new EstimateHasNoLines(), EstimateRules.MaySend(empty, null, ValidUntil).Failure);
    }

    [Fact]
    public void One_that_has_run_out_before_it_was_sent_is_not_sent() =>
        Assert.Equal(new ValidUntilPassed(ValidUntil), EstimateRules.MaySend(In(EstimateState.Draft), null, ValidUntil.AddDays(1)).Failure);

    [Theory]
    [InlineData(0, typeof(ConsentAmountOutOfRange))]
    [InlineData(-5, typeof(ConsentAmountOutOfRange))]
    [InlineData(299.99, typeof(ConsentNotAbove))]
    [InlineData(300, typeof(ConsentNotAbove))]
    [InlineData(300.01, null)]
    public void Further_consent_means_more_than_before(decimal upTo, Type? refusal) =>
        Assert.Equal(refusal, EstimateRules.MayConsent(upTo, 300, "EUR").Failure?.GetType());

    [Fact]
    public void A_first_consent_needs_nothing_before_it() => Assert.Equal(Result.Done, EstimateRules.MayConsent(50, null, "EUR"));

    [Fact]
    public void The_strip_down_charge_is_taxed_like_the_labour()
    {
        var estimate = new Estimate
        {
            Currency = "EUR",
            StripDownCharge = 40,
            Lines =
            [
                new EstimateLine { Kind = LineKind.Part, Position = 1, TaxName = "Reduced", TaxPercent = 7 },
                new EstimateLine { Kind = LineKind.Labour, Position = 2, TaxName = "Standard", TaxPercent = 21 },
            ],
        };
        Assert.Equal(48.40m, EstimateTotals.StripDownGross(estimate));
    }
}
