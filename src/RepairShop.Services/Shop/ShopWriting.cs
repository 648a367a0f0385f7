using System.Globalization;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Shop;

/// <summary>How the shop writes days and money in letters and frozen sentences, from settings read in the same transaction.</summary>
internal static class ShopWriting
{
    public static DateOnly Today(this ShopSettings shop, DateTimeOffset now) => DateOnly.FromDateTime(Local(shop, now).DateTime);

    public static DateTimeOffset Local(this ShopSettings shop, DateTimeOffset at) =>
        TimeZoneInfo.ConvertTime(at, TimeZoneInfo.FindSystemTimeZoneById(shop.TimeZone));

    public static string Money(this ShopSettings shop, decimal amount, string currency) =>
        amount.ToString("C", ShopCulture.Of(shop.Locale, currency));

    public static string Day(this ShopSettings shop, DateOnly day) => DayText.WriteIn(DayText.Gregorian(CultureInfo.GetCultureInfo(shop.Locale)), day);

    public static string Day(this ShopSettings shop, DateTimeOffset at) => shop.Day(shop.Today(at));

    /// <summary>The moment the named day is over in the shop's zone, in UTC.</summary>
    public static DateTimeOffset EndOf(this ShopSettings shop, DateOnly day)
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(shop.TimeZone);
        var midnight = day.AddDays(1).ToDateTime(TimeOnly.MinValue, DateTimeKind.Unspecified);
        while (zone.IsInvalidTime(midnight))
            midnight = midnight.AddMinutes(15);
        return new DateTimeOffset(midnight, zone.GetUtcOffset(midnight)).ToUniversalTime();
    }
}
