using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Estimates;

/// <summary>Checks the lines of a form, for estimates and invoices alike, and finds their tax rates.</summary>
internal static class DraftLines
{
    private const decimal Most = 9_999_999m;

    public static async Task<IReadOnlyList<TaxChoice>> TaxChoicesAsync(
        ShopDb db, ShopSettings shop, IEnumerable<(string Name, decimal Percent)> inUse, CancellationToken cancel)
    {
        if (!shop.TaxRegistered)
            return [];
        var live = await db.TaxRates.AsNoTracking().Where(rate => rate.RetiredAt == null)
            .OrderByDescending(rate => rate.IsDefault).ThenByDescending(rate => rate.Percent).ToListAsync(cancel);
        var choices = live.Select(rate => new TaxChoice(TaxChoice.KeyOf(rate.Name, rate.Percent), rate.Name, rate.Percent, rate.IsDefault)).ToList();
        choices.AddRange(inUse
            .Where(used => used.Name.Length > 0)
            .Select(used => new TaxChoice(TaxChoice.KeyOf(used.Name, used.Percent), used.Name, used.Percent, IsDefault: false))
            .Where(used => choices.All(choice => choice.Key != used.Key))
            .DistinctBy(used => used.Key));
        return choices;
    }

    /// <summary>The first thing wrong with a line; done when all are fit to be kept.</summary>
    public static Result Check(IReadOnlyList<DraftLine> lines, IReadOnlyList<TaxChoice> taxes)
    {
        for (var row = 0; row < lines.Count; row++)
        {
            var line = lines[row];
            if (string.IsNullOrWhiteSpace(line.Text))
                return new LineWithoutText(row);
            if (line.LowQuantity is < 0 or > Most)
                return new LineNumberOutOfRange(row, nameof(line.LowQuantity), "The quantity", line.LowQuantity);
            if (line.HighQuantity is < 0 or > Most)
                return new LineNumberOutOfRange(row, nameof(line.HighQuantity), "The quantity", line.HighQuantity);
            if (line.UnitPrice is < 0 or > Most)
                return new LineNumberOutOfRange(row, nameof(line.UnitPrice), "The price", line.UnitPrice);
            if (line.LowQuantity > line.HighQuantity)
                return new LowAboveHigh(row, line.LowQuantity, line.HighQuantity);
            if (taxes.Count > 0 && taxes.All(tax => tax.Key != line.TaxRate))
                return new NoSuchTaxRate(row);
        }
        return Result.Done;
    }

    /// <returns>No name and 0 where the shop charges no tax.</returns>
    public static (string Name, decimal Percent) TaxOf(DraftLine line, IReadOnlyList<TaxChoice> taxes) =>
        taxes.FirstOrDefault(tax => tax.Key == line.TaxRate) is { } tax ? (tax.Name, tax.Percent) : ("", 0);
}
