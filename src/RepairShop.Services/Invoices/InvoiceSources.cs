using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;
using RepairShop.Services.Repairs;

namespace RepairShop.Services.Invoices;

/// <summary>What a draft's first lines can be made from.</summary>
internal sealed record InvoiceSources(ShopSettings Shop, TaxRate? Rate, Estimate? Approved, Estimate? Declined, decimal Hours, IReadOnlyList<PartUse> Parts)
{
    public static async Task<InvoiceSources> LoadAsync(ShopDb db, RepairFile file, CancellationToken cancel)
    {
        var answered = await db.Estimates.AsNoTracking().Include(row => row.Lines)
            .Where(row => row.RepairId == file.Repair.Id && row.Answer != null).OrderBy(row => row.Revision).ToListAsync(cancel);
        var minutes = await db.LabourEntries
            .Where(row => row.RepairId == file.Repair.Id && row.Billable && row.RemovedAt == null).SumAsync(row => row.Minutes ?? 0, cancel);
        var parts = await db.PartUses.AsNoTracking()
            .Where(row => row.RepairId == file.Repair.Id && row.RemovedAt == null).ToListAsync(cancel);
        var rate = file.Shop.TaxRegistered
            ? await db.TaxRates.AsNoTracking().Where(row => row.RetiredAt == null)
                .OrderByDescending(row => row.IsDefault).ThenByDescending(row => row.Percent).FirstOrDefaultAsync(cancel)
            : null;
        return new InvoiceSources(
            file.Shop, rate,
            answered.LastOrDefault(row => row.Answer == EstimateAnswer.Approved),
            answered.LastOrDefault() is { Answer: EstimateAnswer.Declined } declined ? declined : null,
            InvoiceDrafting.Hours(minutes, file.Shop.LabourRounding), parts);
    }

    public Result<List<InvoiceLine>> LinesOf(InvoiceBasis basis) => basis switch
    {
        InvoiceBasis.AsEstimated => Approved is null ? new NoApprovedEstimate() : InvoiceDrafting.AsEstimated(Approved, Hours),
        InvoiceBasis.StripDownCharge => Declined switch
        {
            null => new EstimateNotDeclined(),
            { StripDownCharge: 0 } => new NoStripDownCharge(),
            _ => InvoiceDrafting.StripDown(Declined),
        },
        _ => InvoiceDrafting.AsWorked(Hours, Shop, Rate, Parts),
    };

    /// <summary>The offer was made with the prices of its day: with or without tax, and in its currency.</summary>
    public (string Currency, bool PricesIncludeTax, bool TaxRegistered) TermsOf(InvoiceBasis basis)
    {
        var offer = basis switch { InvoiceBasis.AsEstimated => Approved, InvoiceBasis.StripDownCharge => Declined, _ => null };
        return offer is null
            ? (Shop.Currency, Shop.PricesIncludeTax, Shop.TaxRegistered)
            : (offer.Currency, offer.PricesIncludeTax, EstimateTotals.ChargesTax(offer));
    }

    public Suggested Suggested() => new(
        Gross(InvoiceBasis.AsEstimated), Gross(InvoiceBasis.AsWorked), Gross(InvoiceBasis.StripDownCharge), Hours);

    private decimal? Gross(InvoiceBasis basis)
    {
        if (LinesOf(basis) is not { IsDone: true, Value: { Count: > 0 } lines })
            return null;
        var (currency, includesTax, registered) = TermsOf(basis);
        return Totals.Of(InvoiceService.Priced(lines), registered, includesTax, Amount.Digits(currency)).Gross;
    }
}
