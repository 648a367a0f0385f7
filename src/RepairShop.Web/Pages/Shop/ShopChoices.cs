using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Invoices;
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

    public static IReadOnlyList<SelectListItem> EInvoices { get; } =
    [
        new("never", nameof(EInvoiceUse.Never)), new("where nothing is missing for it", nameof(EInvoiceUse.WherePossible)),
        new("always: nothing is issued without it", nameof(EInvoiceUse.Always)),
    ];

    public static IReadOnlyList<SelectListItem> Treatments { get; } =
    [
        new("charged at the rates of the lines", nameof(TaxTreatment.Charged)), new("none: not registered", nameof(TaxTreatment.NotRegistered)),
        new("none: export, zero-rated", nameof(TaxTreatment.Export)), new("none: reverse charge to a business abroad", nameof(TaxTreatment.ReverseCharge)),
        new("none: exempt, for a reason", nameof(TaxTreatment.Exempt)),
    ];

    public static IReadOnlyList<SelectListItem> Roundings { get; } =
        [new("once for each rate, on its sum", nameof(TaxRounding.PerRate)), new("on each line", nameof(TaxRounding.PerLine))];

    private static readonly IReadOnlyList<string> Zones =
        [.. TimeZoneInfo.GetSystemTimeZones().Select(zone => zone.Id).Where(id => id.Contains('/') || id == "UTC").Order(StringComparer.Ordinal)];

    /// <summary>With an empty first choice while none is chosen.</summary>
    public static IEnumerable<SelectListItem> Countries(string? chosen) =>
        (string.IsNullOrEmpty(chosen) ? [new SelectListItem("Choose…", "")] : Array.Empty<SelectListItem>())
        .Concat(Services.Shop.Countries.All.Select(country => new SelectListItem(country.Name, country.Code)));

    public static IEnumerable<SelectListItem> TimeZones(string? chosen) =>
        (string.IsNullOrEmpty(chosen) || Zones.Contains(chosen) ? Zones : Zones.Prepend(chosen)).Select(id => new SelectListItem(id.Replace('_', ' '), id));
}
