using RepairShop.Domain.Estimates;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Invoices;

/// <summary>The first lines of a new invoice. The person may change them all before issuing.</summary>
public static class InvoiceDrafting
{
    /// <summary>Billable minutes as hours, rounded once for the whole repair as the shop's rule says.</summary>
    /// <returns>Hours with at most four decimals.</returns>
    public static decimal Hours(int minutes, LabourRounding rounding)
    {
        var step = rounding switch
        {
            LabourRounding.UpToSixMinutes => 6,
            LabourRounding.UpToFifteenMinutes => 15,
            _ => 1,
        };
        return Totals.Round(Math.Ceiling(minutes / (decimal)step) * step / 60m, 4);
    }

    /// <summary>
    /// The approved offer's lines. Labour is what was worked, but never less than the offer's low nor more than its high hours,
    /// spread over the labour lines in proportion to their range; without recorded hours it is the low figure.
    /// The rest is as offered.
    /// </summary>
    public static List<InvoiceLine> AsEstimated(Estimate estimate, decimal workedHours)
    {
        var labour = estimate.Lines.Where(line => line.Kind == LineKind.Labour).ToList();
        var (low, high) = (labour.Sum(line => line.LowQuantity), labour.Sum(line => line.HighQuantity));
        var share = high > low ? Math.Clamp((workedHours - low) / (high - low), 0, 1) : 0;
        return [.. estimate.Lines.OrderBy(line => line.Position).Select((line, index) => new InvoiceLine
        {
            Position = index + 1,
            Kind = line.Kind,
            Text = line.Text,
            Quantity = line.Kind == LineKind.Labour
                ? Totals.Round(line.LowQuantity + (share * (line.HighQuantity - line.LowQuantity)), 4)
                : line.HighQuantity,
            Unit = line.Unit,
            UnitPrice = line.UnitPrice,
            TaxName = line.TaxName,
            TaxPercent = line.TaxPercent,
            TaxCategory = line.TaxCategory,
        })];
    }

    /// <summary>Hours times rate, at least the minimum charge, and the parts used.</summary>
    /// <param name="hours">Already rounded, see <see cref="Hours"/>.</param>
    /// <param name="shop">Its labour rate and minimum charge as they are today.</param>
    /// <param name="rate">The tax on labour; null where the shop charges none.</param>
    /// <param name="parts">Used on the repair and not taken off again.</param>
    public static List<InvoiceLine> AsWorked(decimal hours, ShopSettings shop, TaxRate? rate, IEnumerable<PartUse> parts)
    {
        var lines = new List<InvoiceLine>();
        if (hours > 0)
            lines.Add(Labour(hours, shop, rate));
        lines.AddRange(parts.OrderBy(part => part.UsedAt).Select(part => new InvoiceLine
        {
            Kind = LineKind.Part,
            Text = part.Text,
            Quantity = part.Quantity,
            Unit = part.Unit,
            UnitPrice = part.UnitPrice,
            TaxName = shop.TaxRegistered ? part.TaxName : "",
            TaxPercent = shop.TaxRegistered ? part.TaxPercent : 0,
            TaxCategory = shop.TaxRegistered ? TaxKey.UsualCategory(part.TaxPercent) : TaxCategory.OutsideScope,
        }));
        for (var index = 0; index < lines.Count; index++)
            lines[index].Position = index + 1;
        return lines;
    }

    /// <summary>What was agreed for taking apart and putting together again when the offer is declined.</summary>
    public static List<InvoiceLine> StripDown(Estimate declined)
    {
        var line = EstimateTotals.StripDownLine(declined);
        return
        [
            new InvoiceLine
            {
                Position = 1,
                Kind = LineKind.Labour,
                Text = "Taking apart, finding the fault and putting together again",
                Quantity = 1,
                Unit = "pcs",
                UnitPrice = line.UnitPrice,
                TaxName = line.TaxName,
                TaxPercent = line.TaxPercent,
                TaxCategory = line.Key.Category,
            },
        ];
    }

    private static InvoiceLine Labour(decimal hours, ShopSettings shop, TaxRate? rate)
    {
        var worked = Totals.Round(hours * shop.LabourRate, Amount.Digits(shop.Currency));
        var atLeast = worked < shop.MinimumCharge;
        return new InvoiceLine
        {
            Kind = LineKind.Labour,
            Text = atLeast ? "Labour, minimum charge" : "Labour",
            Quantity = atLeast ? 1 : hours,
            Unit = atLeast ? "pcs" : "h",
            UnitPrice = atLeast ? shop.MinimumCharge : shop.LabourRate,
            TaxName = rate?.Name ?? "",
            TaxPercent = rate?.Percent ?? 0,
            TaxCategory = rate?.Category ?? TaxCategory.OutsideScope,
        };
    }
}
