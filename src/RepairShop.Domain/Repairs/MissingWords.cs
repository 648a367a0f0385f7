namespace RepairShop.Domain.Repairs;

/// <summary>What is missing, in the words of the sheet and of the refusals.</summary>
public static class MissingWords
{
    public static string Of(StillMissing item) => item switch
    {
        StillMissing.ConsentToConditions => "Consent to the conditions",
        StillMissing.EstimateAnswer => "The answer to the estimate",
        StillMissing.RunningClock => "The running clock to be stopped",
        StillMissing.PartsStillOut => "Removed parts back in, or accounted for",
        StillMissing.AfterServiceChecks => "Checks after service",
        StillMissing.AfterServiceReadings => "Shutter readings after service",
        StillMissing.ServiceRecord => "The service record",
        StillMissing.Invoice => "The invoice",
        StillMissing.Payment => "Payment",
        _ => throw new ArgumentOutOfRangeException(nameof(item), item, null),
    };

    /// <summary>"the service record, payment": for the middle of a sentence.</summary>
    public static string List(IEnumerable<StillMissing> items) =>
        string.Join(", ", items.Select(item => Of(item) is var words ? char.ToLowerInvariant(words[0]) + words[1..] : ""));
}
