using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using RepairShop.Domain.Shop;
using RepairShop.Services.Database;

namespace RepairShop.Services.Shop;

/// <summary>
/// What every page needs to know of the shop: its name and how it writes money, numbers and dates. Kept in memory, read again
/// when the settings are saved here and once a minute for a change made through another process.
/// </summary>
public sealed class ShopFace(IServiceScopeFactory scopes, TimeProvider clock)
{
    private static readonly TimeSpan GoodFor = TimeSpan.FromMinutes(1);
    private volatile Snapshot now = Snapshot.Of(new ShopSettings(), DateTimeOffset.MinValue);

    public string Name => now.Name;

    public CultureInfo Culture => now.Culture;

    public string Currency => now.Currency;

    public int MinorUnits => now.MinorUnits;

    public TimeZoneInfo TimeZone => now.TimeZone;

    /// <summary>What stands beside an amount in an input: € or CHF.</summary>
    public string CurrencySign => now.Culture.NumberFormat.CurrencySymbol;

    public DateOnly Today => DateOnly.FromDateTime(Local(clock.GetUtcNow()).DateTime);

    /// <summary>An amount with its currency, as the shop's locale writes it.</summary>
    public string Money(decimal amount) => amount.ToString("C", now.Culture);

    public DateTimeOffset Local(DateTimeOffset at) => TimeZoneInfo.ConvertTime(at, now.TimeZone);

    /// <summary>The moment a day begins in the workshop, in UTC.</summary>
    public DateTimeOffset? StartOf(DateOnly? date)
    {
        if (date is not { } day)
            return null;
        var midnight = day.ToDateTime(TimeOnly.MinValue);
        // Where the clock springs forward at midnight the day begins an hour later.
        while (now.TimeZone.IsInvalidTime(midnight))
            midnight = midnight.AddMinutes(30);
        return new DateTimeOffset(midnight, now.TimeZone.GetUtcOffset(midnight)).ToUniversalTime();
    }

    /// <summary>"24 November 2026" in the locale's order.</summary>
    public string Date(DateOnly date) => DayText.WriteIn(now.Culture, date);

    public string Date(DateTimeOffset at) => Date(DateOnly.FromDateTime(Local(at).DateTime));

    public string DateAndTime(DateTimeOffset at) => $"{Date(at)}, {Local(at).ToString("HH:mm", CultureInfo.InvariantCulture)}";

    public void Changed() => now = now with { ReadAt = DateTimeOffset.MinValue };

    public async ValueTask FreshenAsync(CancellationToken ct = default)
    {
        if (clock.GetUtcNow() - now.ReadAt < GoodFor)
            return;
        await using var scope = scopes.CreateAsyncScope();
        var settings = await scope.ServiceProvider.GetRequiredService<ShopDb>().Shop.AsNoTracking().SingleOrDefaultAsync(ct);
        now = Snapshot.Of(settings ?? new ShopSettings(), clock.GetUtcNow());
    }

    private sealed record Snapshot(
        string Name, CultureInfo Culture, string Currency, int MinorUnits, TimeZoneInfo TimeZone, DateTimeOffset ReadAt)
    {
        public static Snapshot Of(ShopSettings settings, DateTimeOffset at) => new(
            settings.Name.Length > 0 ? settings.Name : "Workshop book",
            ShopCulture.Of(settings.Locale, settings.Currency),
            settings.Currency,
            Domain.Shop.Currency.MinorUnits(settings.Currency),
            TimeZoneInfo.FindSystemTimeZoneById(settings.TimeZone),
            at);
    }
}
