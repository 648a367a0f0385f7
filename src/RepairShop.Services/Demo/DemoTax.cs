using RepairShop.Domain.Shop;
using RepairShop.Services.Estimates;
using RepairShop.Services.Shop;

namespace RepairShop.Services.Demo;

/// <summary>Ways of taxing in the invented workshop: most customers as usual, a business abroad and one outside the EU otherwise.</summary>
internal static class DemoTax
{
    private static readonly (string Name, TaxTreatment Treatment, string Reason)[] Profiles =
    [
        ("Business in another EU country", TaxTreatment.ReverseCharge, "Article 196 of Directive 2006/112/EC: the customer accounts for the VAT"),
        ("Outside the EU", TaxTreatment.Export, "Article 146 (1) (d) of Directive 2006/112/EC"),
    ];

    /// <returns>The profiles by their names.</returns>
    public static async Task<IReadOnlyDictionary<string, Guid>> AddAsync(DemoBook book)
    {
        var added = new Dictionary<string, Guid>();
        foreach (var (name, treatment, reason) in Profiles)
        {
            var profile = new TaxProfile { Name = name, Treatment = treatment, Reason = reason };
            await book.DoAsync<TaxProfileService>("owner", profiles => profiles.Add(profile, book.Cancel));
            added[name] = profile.Id;
        }
        return added;
    }

    /// <summary>What a line of an offer to this customer is taxed with: the profile's own, else the shop's usual rate.</summary>
    public static string KeyFor(SeedCustomer customer, string usual) => Profiles.SingleOrDefault(profile => profile.Name == customer.Profile) is { Name: not null } own
        && TaxTerms.Of(new TaxProfile { Treatment = own.Treatment }).Fixed(isLabour: false) is { } key
            ? TaxChoice.KeyOf(key.Name, key.Percent)
            : usual;
}
