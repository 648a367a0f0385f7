using System.Globalization;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Findings;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Repairs;
using RepairShop.Measurement.Checks;
using RepairShop.Services.Recordings;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;
using RepairShop.Services.StripDown;
using Outcome = RepairShop.Domain.Checks.CheckOutcome;

namespace RepairShop.Services.Paperwork;

/// <summary>What was done on a repair, read from the database for its service record.</summary>
internal sealed record WorkDone(
    IReadOnlyList<Finding> Findings, IReadOnlyList<Photo> Photos, IReadOnlyList<CheckResult> Checks, IReadOnlyList<PartUse> Parts,
    ShutterSessions Shutter, RecordedSessions Recorded, StripRecord StripDown, bool Declined, DateOnly? From, DateOnly? To);

/// <summary>What was found, done and measured, as it is printed.</summary>
internal static class ServiceRecordFactsBuilder
{
    public static ServiceRecordFacts Build(RepairFile file, WorkDone work, string number, string issuedBy, DateTimeOffset now)
    {
        var today = file.Shop.Today(now);
        var shown = work.Findings.Where(finding => finding.OnServiceRecord).OrderBy(finding => finding.Position).ToList();
        return new ServiceRecordFacts
        {
            PaperNumber = number,
            IssuedAt = now,
            IssuedBy = issuedBy,
            Shop = CommonFacts.Of(file.Shop),
            RepairNumber = file.Repair.Number,
            Camera = CommonFacts.Of(file.Camera),
            Customer = CommonFacts.Of(file.Customer),
            IssueDate = today,
            ReceivedOn = file.Shop.Today(file.Repair.BookedAt),
            WorkedFrom = work.From ?? today,
            WorkedTo = work.To ?? today,
            Complaint = file.Repair.Complaint,
            ConditionOnReceipt = file.Repair.ConditionOnReceipt,
            Method = work.Shutter.Method,
            AsReceivedSession = work.Shutter.AsReceived,
            AfterServiceSession = work.Shutter.AfterService,
            Sampling = work.Shutter.Sampling,
            ReferenceRule = work.Shutter.ReferenceRule,
            LimitsName = work.Shutter.Limits,
            DecisionRule = work.Shutter.DecisionRule,
            ShutterRows = work.Shutter.Rows,
            Traces = work.Recorded.Traces,
            Curtains = work.Recorded.Curtains,
            Flash = work.Recorded.Flash,
            Checks = Checks(work.Checks),
            Gauges = [.. shown.Where(finding => finding.GaugeValue is not null).Select(Gauge)],
            Findings = [.. shown.Select(finding => Finding(finding, work.Photos))],
            PartsFitted = [.. work.Parts.OrderBy(part => part.UsedAt).Select(part => new PartFittedFacts(
                null, part.Text, part.Quantity, part.Unit, CommonFacts.Words(part.Provenance)))],
            PartsReturned = [.. CommonFacts.Points(file.Repair.PartsReturned), .. StripDownFacts.Returned(work.StripDown)],
            PartsReplaced = StripDownFacts.Replaced(work.StripDown),
            NotRefitted = StripDownFacts.NotRefitted(work.StripDown),
            Deviations = StripDownFacts.Deviations(work.StripDown),
            Reassembled = work.Declined ? work.StripDown.Progress.DeclinedOutcome : null,
            LeftAlone = [.. CommonFacts.Points(file.Repair.LeftAlone).Select(LeftAlone)],
            Advice = CommonFacts.Points(file.Repair.Advice),
            Cautions = CautionWords.In(
            [
                file.Repair.Advice, file.Repair.LeftAlone, file.Repair.PartsReturned,
                .. shown.SelectMany(finding => new[] { finding.Component, finding.Text, finding.ActionTaken }),
                .. work.Parts.Select(part => part.Text),
            ]),
            Warranty = CommonFacts.OrNull(file.Shop.ServiceRecordText),
            WarrantyUntil = file.Shop.WarrantyMonths > 0 ? today.AddMonths(file.Shop.WarrantyMonths) : null,
            AuthorisedBy = issuedBy,
        };
    }

    private static IReadOnlyList<CheckRowFacts> Checks(IReadOnlyList<CheckResult> results) =>
        [.. results.GroupBy(result => result.Name).OrderBy(check => check.Min(result => result.Position)).Select(check =>
        {
            var before = check.FirstOrDefault(result => result.Phase == Phase.AsReceived);
            var after = check.FirstOrDefault(result => result.Phase == Phase.AfterService);
            return new CheckRowFacts
            {
                Name = check.Key,
                AsReceived = Of(before),
                AsReceivedNote = Note(before),
                AfterService = Of(after),
                AfterServiceNote = Note(after),
            };
        }).Where(row => row.AsReceived is not null || row.AfterService is not null)];

    private static Domain.Paperwork.CheckOutcome? Of(CheckResult? result) => result?.Outcome switch
    {
        null => null,
        Outcome.Fine => Domain.Paperwork.CheckOutcome.Fine,
        Outcome.Faulty => Domain.Paperwork.CheckOutcome.Faulty,
        Outcome.NotFitted => Domain.Paperwork.CheckOutcome.NotFitted,
        _ => Domain.Paperwork.CheckOutcome.NotTested,
    };

    private static string? Note(CheckResult? result)
    {
        if (result is null)
            return null;
        var value = result.Value is { } number ? $"{number.ToString("0.####", CultureInfo.CurrentCulture)} {result.Unit}".Trim() : "";
        return CommonFacts.OrNull(string.Join(", ", new[] { value, result.Note }.Where(part => part.Length > 0)));
    }

    private static GaugeRowFacts Gauge(Finding finding) => new()
    {
        Name = $"{finding.Component}: {finding.GaugeName}".TrimEnd(':', ' '),
        Unit = finding.GaugeUnit,
        LowerLimit = finding.GaugeLow,
        UpperLimit = finding.GaugeHigh,
        AsReceived = finding.GaugeValue,
        Verdict = finding.GaugeLow is null && finding.GaugeHigh is null
            ? null
            : ShutterSessions.Of(DecisionRule.JudgeSimply(finding.GaugeValue!.Value, finding.GaugeLow, finding.GaugeHigh)),
    };

    private static FindingFacts Finding(Finding finding, IReadOnlyList<Photo> photos) => new()
    {
        Component = finding.Component,
        Condition = finding.Condition == Condition.EarlierRepair ? "earlier repair" : finding.Condition.ToString().ToLowerInvariant(),
        Text = finding.Text,
        EvidenceOfEarlierWork = CommonFacts.OrNull(finding.EarlierWork),
        ActionTaken = CommonFacts.OrNull(finding.ActionTaken),
        Photos = [.. photos.Where(photo => photo.FindingId == finding.Id).OrderBy(photo => photo.Position)
            .Select(photo => new PhotoFacts(photo.FileHash, CommonFacts.OrNull(photo.Caption)))],
    };

    /// <summary>"Light seals: still sound" says what and why; a line without a colon is all "what".</summary>
    private static LeftAloneFacts LeftAlone(string line)
    {
        var colon = line.IndexOf(':', StringComparison.Ordinal);
        return colon > 0 ? new LeftAloneFacts(line[..colon].Trim(), line[(colon + 1)..].Trim()) : new LeftAloneFacts(line, "");
    }
}
