using RepairShop.Domain.Repairs;
using Xunit;

namespace RepairShop.Domain.Tests.Repairs;

public sealed class LeavingRulesTests
{
    private static readonly LeavingFacts Complete = new(
        HasConsent: true, Stage.Tested, WaitingForAnswer: false, ClockRunning: false, HasChecksAsReceived: true, HasChecksAfterService: true,
        HasReadingsAsReceived: true, HasReadingsAfterService: true, HasServiceRecord: true, NothingToCharge: false, HasIssuedInvoice: true,
        Balance: 0, Passed: new HashSet<StillMissing>());

    private static LeavingFacts Without(StillMissing item) => item switch
    {
        StillMissing.ConsentToConditions => Complete with { HasConsent = false },
        StillMissing.EstimateAnswer => Complete with { WaitingForAnswer = true },
        StillMissing.RunningClock => Complete with { ClockRunning = true },
        StillMissing.AfterServiceChecks => Complete with { HasChecksAfterService = false },
        StillMissing.AfterServiceReadings => Complete with { HasReadingsAfterService = false },
        StillMissing.ServiceRecord => Complete with { HasServiceRecord = false },
        StillMissing.Invoice => Complete with { HasIssuedInvoice = false },
        StillMissing.Payment => Complete with { Balance = 0.01m },
        _ => throw new ArgumentOutOfRangeException(nameof(item)),
    };

    public static TheoryData<StillMissing> Items => [.. Enum.GetValues<StillMissing>()];

    [Fact]
    public void A_complete_repair_may_go() => Assert.Empty(Leaving.BeforeReturn(Complete));

    [Theory]
    [MemberData(nameof(Items))]
    public void Each_missing_thing_is_named_alone_until_it_is_let_pass(StillMissing item)
    {
        var facts = Without(item);
        Assert.Equal([item], Leaving.BeforeReturn(facts));
        Assert.Empty(Leaving.BeforeReturn(facts with { Passed = new HashSet<StillMissing> { item } }));
        var isMoney = item is StillMissing.Invoice or StillMissing.Payment;
        Assert.Equal(isMoney ? 0 : 1, Leaving.BeforeReady(facts).Count);
    }

    [Fact]
    public void Readings_after_service_are_asked_for_only_where_there_were_some_before() =>
        Assert.Empty(Leaving.BeforeReturn(Complete with { HasReadingsAsReceived = false, HasReadingsAfterService = false }));

    [Fact]
    public void A_declined_repair_needs_no_proof_of_work()
    {
        var declined = Complete with { Stage = Stage.Declined, HasChecksAfterService = false, HasReadingsAfterService = false, HasServiceRecord = false };
        Assert.Empty(Leaving.BeforeReady(declined));
        Assert.Equal([StillMissing.Invoice], Leaving.BeforeReturn(declined with { HasIssuedInvoice = false }));
        Assert.Empty(Leaving.BeforeReturn(declined with { HasIssuedInvoice = false, NothingToCharge = true }));
    }

    [Fact]
    public void The_refusal_says_in_words_what_is_missing() => Assert.Equal(
        "Repair 2026-0417 can't go home yet. Still missing: the service record, payment.",
        new RepairMayNotLeave("2026-0417", [StillMissing.ServiceRecord, StillMissing.Payment]).Message);

    [Theory]
    [InlineData(Stage.BookedIn, NextStep.WriteEstimate)]
    [InlineData(Stage.Approved, NextStep.TakeToTheBench)]
    [InlineData(Stage.OnTheBench, NextStep.AddFinding)]
    [InlineData(Stage.Tested, NextStep.CallReady)]
    [InlineData(Stage.Declined, NextStep.CallReady)]
    public void The_next_step_follows_the_stage(Stage stage, NextStep next) =>
        Assert.Equal(next, NextSteps.Of(Complete with { Stage = stage }, lapsed: false, hasFindings: false, called: false, gone: false));

    [Fact]
    public void The_next_step_follows_the_money_once_a_repair_is_ready()
    {
        Assert.Equal(NextStep.WriteInvoice, NextSteps.Of(Without(StillMissing.Invoice), false, true, called: true, gone: false));
        Assert.Equal(NextStep.RecordPayment, NextSteps.Of(Without(StillMissing.Payment), false, true, called: true, gone: false));
        Assert.Equal(NextStep.GiveBack, NextSteps.Of(Complete, false, true, called: true, gone: false));
        Assert.Equal(NextStep.RecordPayment, NextSteps.Of(Without(StillMissing.Payment), false, true, called: true, gone: true));
        Assert.Equal(NextStep.None, NextSteps.Of(Complete, false, true, called: true, gone: true));
    }
}
