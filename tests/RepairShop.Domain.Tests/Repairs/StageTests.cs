using RepairShop.Domain.Estimates;
using RepairShop.Domain.Repairs;
using Xunit;

namespace RepairShop.Domain.Tests.Repairs;

public sealed class StageTests
{
    private static readonly StageFacts Nothing = new(HasPreApproval: false, EstimateSent: false, LatestAnswer: null, OnBench: false, TestedAfterService: false, Ready: false, Returned: false);

    [Fact]
    public void The_furthest_thing_that_has_happened_says_where_a_repair_stands()
    {
        Assert.Equal(Stage.BookedIn, Nothing.Stage);
        Assert.Equal(Stage.Approved, (Nothing with { HasPreApproval = true }).Stage);
        Assert.Equal(Stage.OnTheBench, (Nothing with { HasPreApproval = true, OnBench = true }).Stage);
        Assert.Equal(Stage.Tested, (Nothing with { OnBench = true, TestedAfterService = true }).Stage);
        Assert.Equal(Stage.Ready, (Nothing with { TestedAfterService = true, Ready = true }).Stage);
        Assert.Equal(Stage.Returned, (Nothing with { Ready = true, Returned = true }).Stage);
    }

    [Fact]
    public void An_offer_waits_for_its_answer_before_the_bench_counts()
    {
        var sent = Nothing with { EstimateSent = true, OnBench = true };
        Assert.Equal(Stage.EstimateSent, sent.Stage);
        Assert.Equal(Stage.OnTheBench, (sent with { LatestAnswer = EstimateAnswer.Approved }).Stage);
        Assert.Equal(Stage.Declined, (sent with { LatestAnswer = EstimateAnswer.Declined, TestedAfterService = true }).Stage);
        Assert.Equal(Stage.Approved, (sent with { LatestAnswer = EstimateAnswer.Approved, OnBench = false }).Stage);
    }
}
