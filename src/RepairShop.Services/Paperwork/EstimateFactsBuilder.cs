using RepairShop.Domain.Estimates;
using RepairShop.Domain.Paperwork;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Paperwork;

/// <summary>An offer as it is printed.</summary>
internal static class EstimateFactsBuilder
{
    public static EstimateFacts Build(
        RepairFile file, Estimate estimate, EstimateTotals totals, string? answerUrl, string issuedBy, DateTimeOffset now) => new()
        {
            PaperNumber = $"{file.Repair.Number}-E{estimate.Revision}",
            IssuedAt = now,
            IssuedBy = issuedBy,
            Shop = CommonFacts.Of(file.Shop),
            RepairNumber = file.Repair.Number,
            Camera = CommonFacts.Of(file.Camera),
            Revision = estimate.Revision,
            Customer = CommonFacts.Of(file.Customer),
            IssueDate = file.Shop.Today(now),
            ReceivedOn = file.Shop.Today(file.Repair.BookedAt),
            Complaint = file.Repair.Complaint,
            Seen = CommonFacts.Points(estimate.WhatWasSeen),
            Currency = estimate.Currency,
            Lines = [.. estimate.Lines.OrderBy(line => line.Position).Select((line, index) => Line(line, totals, index))],
            PricesIncludeTax = estimate.PricesIncludeTax,
            LowNet = totals.Low.Net,
            HighNet = totals.High.Net,
            LowTaxes = CommonFacts.Of(totals.Low.Taxes),
            HighTaxes = CommonFacts.Of(totals.High.Taxes),
            LowTotal = totals.Low.Gross,
            HighTotal = totals.High.Gross,
            StripDownCharge = estimate.StripDownCharge == 0 ? null : EstimateTotals.StripDownGross(estimate),
            NeedsStripDown = estimate.StripDownCharge > 0,
            NeedsConsent = CommonFacts.Points(estimate.NeedsConsent),
            ValidUntil = estimate.ValidUntil,
            AnswerUrl = answerUrl,
            Cautions = CautionWords.In([estimate.WhatWasSeen, .. estimate.Lines.Select(line => line.Text)]),
            Conditions = [.. CommonFacts.Points(file.Shop.EstimateText), .. CommonFacts.Points(file.Shop.ConditionsText)],
        };

    private static EstimateLineFacts Line(EstimateLine line, EstimateTotals totals, int index) => new()
    {
        Group = CommonFacts.Of(line.Kind),
        Text = line.Text,
        LowQuantity = line.LowQuantity,
        HighQuantity = line.HighQuantity,
        Unit = line.Unit,
        UnitPrice = line.UnitPrice,
        LowAmount = totals.Low.LineAmounts[index],
        HighAmount = totals.High.LineAmounts[index],
        TaxPercent = line.TaxName.Length == 0 ? null : line.TaxPercent,
    };
}
