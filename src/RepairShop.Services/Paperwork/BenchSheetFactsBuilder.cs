using RepairShop.Domain.Estimates;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Shop;
using RepairShop.Measurement.ShutterTests;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;
using RepairShop.Services.StripDown;

namespace RepairShop.Services.Paperwork;

/// <summary>What the bench needs on the wall.</summary>
internal static class BenchSheetFactsBuilder
{
    public static BenchSheetFacts Build(
        RepairFile file, Estimate? offer, decimal? approvedUpTo, IReadOnlyList<CheckItem> checks, StripRecord stripDown, IReadOnlyList<CleaningLine> ways,
        string number, string repairUrl, string issuedBy, DateTimeOffset now) => new()
        {
            PaperNumber = number,
            IssuedAt = now,
            IssuedBy = issuedBy,
            Shop = CommonFacts.Of(file.Shop),
            RepairNumber = file.Repair.Number,
            Camera = CommonFacts.Of(file.Camera),
            CustomerName = file.Customer.Name,
            ReceivedOn = file.Shop.Today(file.Repair.BookedAt),
            WantedBy = file.Repair.WantedBy,
            Shelf = CommonFacts.OrNull(file.Repair.Shelf),
            Complaint = file.Repair.Complaint,
            ConditionOnReceipt = CommonFacts.OrNull(file.Repair.ConditionOnReceipt),
            CameWith = file.Repair.CameWith,
            LowHours = Hours(offer, line => line.LowQuantity),
            HighHours = Hours(offer, line => line.HighQuantity),
            ApprovedUpTo = approvedUpTo,
            Currency = file.Shop.Currency,
            RepairUrl = repairUrl,
            StripDown = StripDownFacts.Steps(stripDown),
            Readings = Readings(file),
            Checks = [.. checks.OrderBy(check => check.Position).Select(check => check.Name)],
            Cautions = [.. CautionWords.In([file.Repair.Complaint, file.Repair.ConditionOnReceipt, offer?.WhatWasSeen ?? "", file.Camera.Notes,
                .. offer?.Lines.Select(line => line.Text) ?? []]).Union(StripDownFacts.Cautions(stripDown, ways))],
            Notes = CommonFacts.Points(file.Camera.Notes),
        };

    private static decimal? Hours(Estimate? offer, Func<EstimateLine, decimal> quantity) =>
        offer?.Lines.Where(line => line.Kind == LineKind.Labour).Sum(quantity) is { } hours and > 0 ? hours : null;

    private static IReadOnlyList<ReadingToTakeFacts> Readings(RepairFile file)
    {
        var marks = ShutterSessions.Marks(file.Camera);
        var rule = SpeedSeries.RuleFor(marks, file.Shop.LiteralMarks ? ReferenceRule.LiteralMark : ReferenceRule.TrueBinary);
        var limits = new SpeedLimits(
            "the workshop's", file.Shop.SlowLimitStops, file.Shop.FastLimitStops, file.Shop.LimitBoundarySeconds,
            file.Shop.LimitProvenance.Length > 0 ? file.Shop.LimitProvenance : "The workshop's own.");
        return [.. marks.Select(mark => (mark, reference: mark.ReferenceSeconds(rule), limit: limits.StopsFor(mark)))
            .Where(row => row.reference is not null)
            .Select(row => new ReadingToTakeFacts(
                row.mark.Text, row.reference!.Value,
                row.reference * Math.Pow(2, -row.limit ?? 0), row.reference * Math.Pow(2, row.limit ?? 0)))];
    }
}
