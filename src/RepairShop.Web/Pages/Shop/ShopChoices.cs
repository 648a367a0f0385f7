using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Shop;

namespace RepairShop.Web.Pages.Shop;

/// <summary>The long lists of the settings page, made once.</summary>
internal static class ShopChoices
{
    public static IReadOnlyList<SelectListItem> Currencies { get; } =
        [.. Currency.All.Select(code => new SelectListItem($"{code} – {Currency.Name(code)}", code))];

    public static IReadOnlyList<SelectListItem> Locales { get; } =
    [
        .. CultureInfo.GetCultures(CultureTypes.SpecificCultures)
            .OrderBy(culture => culture.EnglishName, StringComparer.InvariantCulture)
            .Select(culture => new SelectListItem(culture.EnglishName, culture.Name)),
    ];

    private static readonly IReadOnlyList<string> Zones =
        [.. TimeZoneInfo.GetSystemTimeZones().Select(zone => zone.Id).Where(id => id.Contains('/') || id == "UTC").Order(StringComparer.Ordinal)];

    /// <summary>With an empty first choice while none is chosen.</summary>
    public static IEnumerable<SelectListItem> Countries(string chosen) =>
        (chosen.Length == 0 ? [new SelectListItem("Choose…", "")] : Array.Empty<SelectListItem>())
        .Concat(Services.Shop.Countries.All.Select(country => new SelectListItem(country.Name, country.Code)));

    public static IEnumerable<SelectListItem> TimeZones(string chosen) =>
        (Zones.Contains(chosen) || chosen.Length == 0 ? Zones : Zones.Prepend(chosen)).Select(id => new SelectListItem(id.Replace('_', ' '), id));
}
