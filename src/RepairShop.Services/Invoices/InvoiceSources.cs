using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;
using RepairShop.Services.Repairs;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Invoices;

/// <summary>What a draft's first lines can be made from.</summary>
/// <param name="Shop"></param>
/// <param name="Terms">How the customer is taxed on the day the work was done.</param>
/// <param name="Rates">That may be used on that day, the usual one first.</param>
internal sealed record InvoiceSources(
    ShopSettings Shop, TaxTerms Terms, IReadOnlyList<TaxRate> Rates, Estimate? Approved, Estimate? Declined, decimal Hours, IReadOnlyList<PartUse> Parts)
{
    public static async Task<InvoiceSources> LoadAsync(ShopDb db, RepairFile file, DateOnly day, CancellationToken cancel)
    {
        var answered = await db.Estimates.AsNoTracking().Include(row => row.Lines)
            .Where(row => row.RepairId == file.Repair.Id && row.Answer != null).OrderBy(row => row.Revision).ToListAsync(cancel);
        var minutes = await db.LabourEntries
            .Where(row => row.RepairId == file.Repair.Id && row.Billable && row.RemovedAt == null).SumAsync(row => row.Minutes ?? 0, cancel);
        var parts = await db.PartUses.AsNoTracking()
            .Where(row => row.RepairId == file.Repair.Id && row.RemovedAt == null).ToListAsync(cancel);
        return new InvoiceSources(
            file.Shop, await TaxTermsReader.ReadAsync(db, file.Shop, null, file.Customer.TaxProfileId, day, cancel),
            await db.TaxRates.AsNoTracking().ValidOn(day).OrderByDescending(row => row.IsDefault).ThenByDescending(row => row.Percent).ToListAsync(cancel),
            answered.LastOrDefault(row => row.Answer == EstimateAnswer.Approved),
            answered.LastOrDefault() is { Answer: EstimateAnswer.Declined } declined ? declined : null,
            InvoiceDrafting.Hours(minutes, file.Shop.LabourRounding), parts);
    }

    public Result<List<InvoiceLine>> LinesOf(InvoiceBasis basis)
    {
        Result<List<InvoiceLine>> lines = basis switch
        {
            InvoiceBasis.AsEstimated => Approved is null ? new NoApprovedEstimate() : InvoiceDrafting.AsEstimated(Approved, Hours),
            InvoiceBasis.StripDownCharge => Declined switch
            {
                null => new EstimateNotDeclined(),
                { StripDownCharge: 0 } => new NoStripDownCharge(),
                _ => InvoiceDrafting.StripDown(Declined),
            },
            _ => InvoiceDrafting.AsWorked(Hours, Shop, Terms.ChargesTax && Rates.Count > 0 ? Rates[0] : null, Parts),
        };
        if (lines.IsDone)
            TaxTermsLines.Tax(lines.Value, TermsOf(basis), Rates, keepsItsRates: OfferOf(basis) is not null, OfferOf(basis)?.PricesIncludeTax ?? Terms.PricesIncludeTax);
        return lines;
    }

    public string CurrencyOf(InvoiceBasis basis) => OfferOf(basis)?.Currency ?? Shop.Currency;

    /// <summary>The offer was made with the prices of its day, with or without tax; who is not taxed at all is not taxed by it either.</summary>
    public TaxTerms TermsOf(InvoiceBasis basis) => OfferOf(basis) switch
    {
        null => Terms,
        var offer when !EstimateTotals.ChargesTax(offer) => Terms with { Treatment = TaxTreatment.NotRegistered, PricesIncludeTax = false },
        _ when !Terms.IsRegistered => Terms with { Treatment = TaxTreatment.Charged, PricesIncludeTax = OfferOf(basis)!.PricesIncludeTax },
        var offer => Terms.ChargesTax ? Terms with { PricesIncludeTax = offer.PricesIncludeTax } : Terms,
    };

    public Suggested Suggested() => new(
        Gross(InvoiceBasis.AsEstimated), Gross(InvoiceBasis.AsWorked), Gross(InvoiceBasis.StripDownCharge), Hours);

    private Estimate? OfferOf(InvoiceBasis basis) => basis switch { InvoiceBasis.AsEstimated => Approved, InvoiceBasis.StripDownCharge => Declined, _ => null };

    private decimal? Gross(InvoiceBasis basis)
    {
        if (LinesOf(basis) is not { IsDone: true, Value: { Count: > 0 } lines })
            return null;
        var terms = TermsOf(basis);
        return Totals.Of(
            [.. lines.Select(line => line.Priced())], [],
            new TotalsTerms(terms.IsRegistered, terms.PricesIncludeTax, Amount.Digits(CurrencyOf(basis)), terms.Rounding)).Gross;
    }
}

/// <summary>Puts the tax of a profile on lines.</summary>
internal static class TaxTermsLines
{
    /// <param name="lines"></param>
    /// <param name="terms"></param>
    /// <param name="rates">That may be used on the day, the usual one first.</param>
    /// <param name="keepsItsRates">As offered: a rate that was changed since stays where tax is charged.</param>
    /// <param name="pricesHeldTax">How the lines' prices are written now.</param>
    public static void Tax(List<InvoiceLine> lines, TaxTerms terms, IReadOnlyList<TaxRate> rates, bool keepsItsRates, bool pricesHeldTax)
    {
        foreach (var line in lines)
        {
            var (percent, wasTaxed) = (line.TaxPercent, line.TaxName.Length > 0);
            var key = terms.Fixed(line.Kind == LineKind.Labour) ?? (keepsItsRates && wasTaxed ? line.Priced().Key : RateFor(line, rates));
            (line.TaxName, line.TaxPercent, line.TaxCategory) = (key.Name, key.Percent, key.Category);
            // A price that held its tax is written without it where none is charged, and the other way round.
            if (pricesHeldTax != terms.PricesIncludeTax && (wasTaxed || key.Percent > 0))
                line.UnitPrice = Totals.Round(pricesHeldTax ? line.UnitPrice / (1 + percent / 100) : line.UnitPrice * (1 + key.Percent / 100), 4);
        }
    }

    /// <summary>The rate of the same name as it is on the day; the usual one for a line without.</summary>
    private static TaxKey RateFor(InvoiceLine line, IReadOnlyList<TaxRate> rates)
    {
        var rate = rates.FirstOrDefault(one => one.Name == line.TaxName) ?? (line.TaxName.Length == 0 && rates.Count > 0 ? rates[0] : null);
        return rate is null ? line.Priced().Key : new TaxKey(rate.Category, rate.Name, rate.Percent);
    }
}
