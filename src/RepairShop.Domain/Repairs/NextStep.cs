namespace RepairShop.Domain.Repairs;

/// <summary>The one next sensible thing to do with a repair.</summary>
public enum NextStep
{
    CheckAsReceived,
    WriteEstimate,
    RecordAnswer,
    OfferAgain,
    TakeToTheBench,
    AddFinding,
    PutTogether,
    MeasureAfterService,
    IssueServiceRecord,
    CallReady,
    WriteInvoice,
    RecordPayment,
    GiveBack,
    None,
}

/// <summary>What the sheet puts first.</summary>
public static class NextSteps
{
    /// <param name="facts">What the leaving rules know.</param>
    /// <param name="lapsed">The sent offer's day has passed without an answer.</param>
    /// <param name="hasFindings">At least one finding is written.</param>
    /// <param name="called">Ready has been called, whatever the latest answer was.</param>
    /// <param name="gone">The camera has gone home.</param>
    public static NextStep Of(LeavingFacts facts, bool lapsed, bool hasFindings, bool called, bool gone)
    {
        if (gone)
            return facts.Balance > 0 ? NextStep.RecordPayment : NextStep.None;
        if (called)
            return Leaving.BeforeReturn(facts) switch
            {
                var missing when missing.Contains(StillMissing.Invoice) => NextStep.WriteInvoice,
                var missing when missing.Contains(StillMissing.Payment) => NextStep.RecordPayment,
                _ => NextStep.GiveBack,
            };
        return facts.Stage switch
        {
            _ when facts.WaitingForAnswer => lapsed ? NextStep.OfferAgain : NextStep.RecordAnswer,
            Stage.BookedIn => facts.HasChecksAsReceived || facts.HasReadingsAsReceived ? NextStep.WriteEstimate : NextStep.CheckAsReceived,
            Stage.Approved => NextStep.TakeToTheBench,
            Stage.Declined or Stage.Tested when facts.StillOut.Count > 0 => NextStep.PutTogether,
            Stage.OnTheBench when hasFindings && facts.StillOut.Count > 0 => NextStep.PutTogether,
            Stage.OnTheBench => hasFindings ? NextStep.MeasureAfterService : NextStep.AddFinding,
            Stage.Tested when Leaving.BeforeReady(facts).Contains(StillMissing.ServiceRecord) => NextStep.IssueServiceRecord,
            _ => NextStep.CallReady,
        };
    }
}
