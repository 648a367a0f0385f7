using RepairShop.Domain.Estimates;

namespace RepairShop.Services.Estimates;

/// <summary>What a form comes to before it is kept.</summary>
public static class EstimatePreview
{
    public static EstimateTotals Of(EstimateDraft draft, EstimateForm form)
    {
        var estimate = new Estimate { Currency = form.Currency, PricesIncludeTax = form.PricesIncludeTax };
        estimate.Lines.AddRange(draft.Lines.Select((line, index) =>
        {
            var (name, percent, category) = DraftLines.TaxOf(line, form.Taxes);
            return new EstimateLine
            {
                Position = index + 1,
                Kind = line.Kind,
                LowQuantity = line.LowQuantity,
                HighQuantity = line.HighQuantity,
                UnitPrice = line.UnitPrice,
                TaxName = name,
                TaxPercent = percent,
                TaxCategory = category,
            };
        }));
        return EstimateTotals.Of(estimate);
    }
}
