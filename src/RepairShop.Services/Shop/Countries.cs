using System.Globalization;

namespace RepairShop.Services.Shop;

/// <summary>Countries by ISO 3166-1 alpha-2 code with their English name, as the system's locale data lists them.</summary>
public static class Countries
{
    public static IReadOnlyList<Country> All { get; } =
    [
        .. CultureInfo.GetCultures(CultureTypes.SpecificCultures)
            .Select(culture => new RegionInfo(culture.Name))
            .Where(region => region.TwoLetterISORegionName is [>= 'A' and <= 'Z', >= 'A' and <= 'Z'])
            .DistinctBy(region => region.TwoLetterISORegionName)
            .Select(region => new Country(region.TwoLetterISORegionName, region.EnglishName))
            .OrderBy(country => country.Name, StringComparer.InvariantCulture),
    ];

    /// <summary>For people; a code nobody knows stays as it is.</summary>
    public static string NameOf(string code) => All.FirstOrDefault(country => country.Code == code)?.Name ?? code;

    public static bool IsKnown(string code) => All.Any(country => country.Code == code);
}

public sealed record Country(string Code, string Name);
