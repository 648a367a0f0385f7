using RepairShop.Domain.StripDown;

namespace RepairShop.Domain.Repairs;

/// <summary>What may still be missing before a camera can be called ready, or go home.</summary>
public enum StillMissing
{
    ConsentToConditions,
    EstimateAnswer,
    RunningClock,

    /// <summary>Something taken out of the camera is neither back nor accounted for. Nobody can let this pass: each piece is written off by name instead.</summary>
    PartsStillOut,

    AfterServiceChecks,
    AfterServiceReadings,
    ServiceRecord,
    Invoice,
    Payment,
}

/// <summary>What the list of missing things depends on.</summary>
public readonly record struct LeavingFacts(
    bool HasConsent,
    Stage Stage,
    bool WaitingForAnswer,
    bool ClockRunning,
    bool HasChecksAsReceived,
    bool HasChecksAfterService,
    bool HasReadingsAsReceived,
    bool HasReadingsAfterService,
    bool HasServiceRecord,
    bool NothingToCharge,
    bool HasIssuedInvoice,
    decimal Balance,
    IReadOnlySet<StillMissing> Passed)
{
    /// <summary>What was taken out and is not accounted for.</summary>
    public IReadOnlyList<OutItem> StillOut { get => field ?? []; init; }
}

/// <summary>Nothing goes home half-done: the lists behind "ready" and "returned".</summary>
public static class Leaving
{
    /// <summary>Whether the owner may let it pass. A part that is still out is accounted for one by one, never waved through.</summary>
    public static bool MayPass(StillMissing item) => item != StillMissing.PartsStillOut;

    /// <summary>What must be there, or be let pass by the owner, before the repair may be called ready.</summary>
    public static IReadOnlyList<StillMissing> BeforeReady(LeavingFacts facts)
    {
        var declined = facts.Stage == Stage.Declined;
        var missing = new List<StillMissing>();
        if (!facts.HasConsent)
            missing.Add(StillMissing.ConsentToConditions);
        if (facts.WaitingForAnswer)
            missing.Add(StillMissing.EstimateAnswer);
        if (facts.ClockRunning)
            missing.Add(StillMissing.RunningClock);
        if (facts.StillOut.Count > 0)
            missing.Add(StillMissing.PartsStillOut);
        if (!declined && !facts.HasChecksAfterService)
            missing.Add(StillMissing.AfterServiceChecks);
        if (!declined && facts.HasReadingsAsReceived && !facts.HasReadingsAfterService)
            missing.Add(StillMissing.AfterServiceReadings);
        if (!declined && !facts.HasServiceRecord)
            missing.Add(StillMissing.ServiceRecord);
        return [.. missing.Where(item => !MayPass(item) || !facts.Passed.Contains(item))];
    }

    /// <summary>What must be there, or be let pass by the owner, before the camera may leave: all of the above and the money.</summary>
    public static IReadOnlyList<StillMissing> BeforeReturn(LeavingFacts facts)
    {
        var missing = new List<StillMissing>(BeforeReady(facts));
        if (!facts.HasIssuedInvoice && !facts.NothingToCharge && !facts.Passed.Contains(StillMissing.Invoice))
            missing.Add(StillMissing.Invoice);
        if (facts.HasIssuedInvoice && facts.Balance > 0 && !facts.Passed.Contains(StillMissing.Payment))
            missing.Add(StillMissing.Payment);
        return missing;
    }
}
