using Microsoft.EntityFrameworkCore;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Shop;

/// <summary>How something is taxed on a day, read from profiles, rates and settings.</summary>
internal static class TaxTermsReader
{
    public static async Task<TaxTerms> ReadAsync(ShopDb db, ShopSettings shop, Guid? wanted, Guid? customers, DateOnly day, CancellationToken cancel) =>
        TaxTerms.For(shop, await db.TaxProfiles.AsNoTracking().Where(row => row.RetiredAt == null).OrderBy(row => row.Name).ToListAsync(cancel), wanted, customers, day);

    /// <summary>The profile a draft was written by, whatever has become of it since; the shop's settings without one.</summary>
    public static async Task<TaxTerms> OfAsync(ShopDb db, ShopSettings shop, Guid? profile, CancellationToken cancel) =>
        profile is { } id ? TaxTerms.Of(await db.TaxProfiles.AsNoTracking().SingleAsync(row => row.Id == id, cancel)) : TaxTerms.Of(shop);

    /// <summary>Rates that may be used on a day.</summary>
    public static IQueryable<TaxRate> ValidOn(this IQueryable<TaxRate> rates, DateOnly day) => rates.Where(rate =>
        rate.RetiredAt == null && (rate.ValidFrom == null || rate.ValidFrom <= day) && (rate.ValidUntil == null || rate.ValidUntil >= day));
}
