using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Estimates;

/// <summary>Checks the lines of a form, for estimates and invoices alike, and finds their tax rates.</summary>
internal static class DraftLines
{
    private const decimal MostQuantity = 10_000_000m;

    /// <summary>The rates of the day where tax is charged, and those already on the lines; the profile's one where it is not.</summary>
    public static async Task<IReadOnlyList<TaxChoice>> TaxChoicesAsync(
        ShopDb db, TaxTerms terms, DateOnly day, IEnumerable<(string Name, decimal Percent, TaxCategory Category)> inUse, CancellationToken cancel)
    {
        if (!terms.IsRegistered)
            return [];
        if (!terms.ChargesTax)
            return [Choice(terms.Fixed(isLabour: false)!.Value, isDefault: true)];
        var live = await db.TaxRates.AsNoTracking().ValidOn(day)
            .OrderByDescending(rate => rate.IsDefault).ThenByDescending(rate => rate.Percent).ToListAsync(cancel);
        var choices = live.Select(rate => Choice(new TaxKey(rate.Category, rate.Name, rate.Percent), rate.IsDefault)).ToList();
        if (terms.Fixed(isLabour: true) is { } labour)
            choices.Add(Choice(labour, isDefault: false));
        choices.AddRange(inUse
            .Where(used => used.Name.Length > 0)
            .Select(used => Choice(new TaxKey(used.Category, used.Name, used.Percent), isDefault: false))
            .Where(used => choices.All(choice => choice.Key != used.Key))
            .DistinctBy(used => used.Key).ToList());
        return choices;
    }

    /// <summary>The rate a new line starts with: the usual one, or the profile's own for labour.</summary>
    public static TaxChoice? Default(IReadOnlyList<TaxChoice> taxes, TaxTerms terms, LineKind kind) =>
        terms.Fixed(kind == LineKind.Labour) is { } key && taxes.FirstOrDefault(tax => tax.Name == key.Name && tax.Percent == key.Percent) is { } own
            ? own
            : taxes.Count > 0 ? taxes[0] : null;

    /// <summary>The first thing wrong with a line; done when all are fit to be kept.</summary>
    public static Result Check(IReadOnlyList<DraftLine> lines, IReadOnlyList<TaxChoice> taxes)
    {
        for (var row = 0; row < lines.Count; row++)
        {
            var line = lines[row];
            if (string.IsNullOrWhiteSpace(line.Text))
                return new LineWithoutText(row);
            if (line.LowQuantity is < 0 or >= MostQuantity)
                return new LineNumberOutOfRange(row, nameof(line.LowQuantity), "The quantity", line.LowQuantity, MostQuantity);
            if (line.HighQuantity is < 0 or >= MostQuantity)
                return new LineNumberOutOfRange(row, nameof(line.HighQuantity), "The quantity", line.HighQuantity, MostQuantity);
            if (line.UnitPrice is < 0 or >= Amount.Most)
                return new LineNumberOutOfRange(row, nameof(line.UnitPrice), "The price", line.UnitPrice, Amount.Most);
            if (line.LowQuantity > line.HighQuantity)
                return new LowAboveHigh(row, line.LowQuantity, line.HighQuantity);
            if (line.Change.On(line.HighQuantity * line.UnitPrice, 4) < -line.HighQuantity * line.UnitPrice)
                return new DiscountAboveLine(row);
            if (taxes.Count > 0 && taxes.All(tax => tax.Key != line.TaxRate))
                return new NoSuchTaxRate(row);
        }
        return Result.Done;
    }

    /// <returns>No name and 0 where the shop charges no tax.</returns>
    public static (string Name, decimal Percent, TaxCategory Category) TaxOf(DraftLine line, IReadOnlyList<TaxChoice> taxes) =>
        taxes.FirstOrDefault(tax => tax.Key == line.TaxRate) is { } tax ? (tax.Name, tax.Percent, tax.Category) : ("", 0, TaxCategory.OutsideScope);

    private static TaxChoice Choice(TaxKey key, bool isDefault) =>
        new(TaxChoice.KeyOf(key.Name, key.Percent), key.Name, key.Percent, isDefault, key.Percent == 0 && key.Category == TaxCategory.Standard ? TaxCategory.Zero : key.Category);
}
