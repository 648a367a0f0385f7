using RepairShop.Domain.Repairs;
using RepairShop.Domain.StripDown;
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
        StillMissing.PartsStillOut => Complete with { StillOut = [new OutItem("Cell spring", 1, "tray 1, B3", Remember.EasilyLost)] },
        StillMissing.AfterServiceChecks => Complete with { HasChecksAfterService = false },
        StillMissing.AfterServiceReadings => Complete with { HasReadingsAfterService = false },
        StillMissing.ServiceRecord => Complete with { HasServiceRecord = false },
        StillMissing.Invoice => Complete with { HasIssuedInvoice = false },
        StillMissing.Payment => Complete with { Balance = 0.01m },
        _ => throw new ArgumentOutOfRangeException(nameof(item)),
    };

    public static TheoryData<StillMissing> Items => [.. Enum.GetValues<StillMissing>().Where(Leaving.MayPass)];

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
    public void Parts_that_are_out_stop_a_repair_worked_on_or_declined_and_nobody_lets_them_pass()
    {
        var facts = Without(StillMissing.PartsStillOut) with { Passed = new HashSet<StillMissing> { StillMissing.PartsStillOut } };
        Assert.Equal([StillMissing.PartsStillOut], Leaving.BeforeReady(facts));
        Assert.Equal([StillMissing.PartsStillOut], Leaving.BeforeReturn(facts with { Stage = Stage.Declined }));
        Assert.Equal(NextStep.PutTogether, NextSteps.Of(facts with { Stage = Stage.Declined }, false, true, called: false, gone: false));
        Assert.Equal(NextStep.PutTogether, NextSteps.Of(facts with { Stage = Stage.OnTheBench }, false, hasFindings: true, called: false, gone: false));
    }

    [Fact]
    public void The_refusal_names_each_part_with_its_cell() => Assert.Equal(
        "Repair 2026-0417 can't be called ready or go home. Still out of the camera: 2 × Screw (tray 1, A1); Lens board (no cell). "
            + "Refit each, or say that it was replaced, returned in the bag or written off. Also missing: the service record.",
        new PartsStillOut(
            "2026-0417", [new OutItem("Screw", 2, "tray 1, A1", Remember.None), new OutItem("Lens board", 1, "", Remember.None)],
            [StillMissing.ServiceRecord]).Message);

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
