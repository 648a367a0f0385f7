using RepairShop.Domain.Estimates;

namespace RepairShop.Domain.Repairs;

/// <summary>Where a repair stands. Computed from what has happened, never picked from a list.</summary>
public enum Stage
{
    BookedIn,
    EstimateSent,
    Approved,
    Declined,
    OnTheBench,
    Tested,
    Ready,
    Returned,
}

/// <summary>All that the stage depends on. The view <c>repair_stages</c> computes the same in SQL; a test holds both together.</summary>
/// <param name="HasPreApproval">A limit was agreed at booking in, so work may start without an estimate.</param>
/// <param name="EstimateSent">At least one revision has been sent.</param>
/// <param name="LatestAnswer">The answer to the latest sent revision; null while waiting.</param>
/// <param name="OnBench">Has been taken to the bench.</param>
/// <param name="TestedAfterService">Has an after-service shutter reading or function check.</param>
/// <param name="Ready">Was called ready to go home.</param>
/// <param name="Returned">Was collected or posted.</param>
public readonly record struct StageFacts(
    bool HasPreApproval,
    bool EstimateSent,
    EstimateAnswer? LatestAnswer,
    bool OnBench,
    bool TestedAfterService,
    bool Ready,
    bool Returned)
{
    /// <summary>
    /// The furthest thing that has happened wins, but an open question to the customer comes before bench work:
    /// a revision sent while the camera is on the bench waits for an answer again.
    /// </summary>
    public Stage Stage => this switch
    {
        { Returned: true } => Stage.Returned,
        { Ready: true } => Stage.Ready,
        { EstimateSent: true, LatestAnswer: null } => Stage.EstimateSent,
        { EstimateSent: true, LatestAnswer: EstimateAnswer.Declined } => Stage.Declined,
        { TestedAfterService: true } => Stage.Tested,
        { OnBench: true } => Stage.OnTheBench,
        { EstimateSent: true, LatestAnswer: EstimateAnswer.Approved } => Stage.Approved,
        { HasPreApproval: true } => Stage.Approved,
        _ => Stage.BookedIn,
    };
}
