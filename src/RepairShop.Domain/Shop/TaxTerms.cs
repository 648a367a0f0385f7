using RepairShop.Domain.Invoices;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Domain.Shop;

/// <summary>How one paper is taxed, on the day the work was done.</summary>
/// <param name="ProfileId">Null: the shop has no profile for that day, and its plain settings hold.</param>
public sealed record TaxTerms(
    Guid? ProfileId, string Name, TaxTreatment Treatment, bool PricesIncludeTax, bool TaxesLabour, TaxRounding Rounding, string Reason, bool CashAccounting)
{
    /// <summary>Words on a line that carries no tax.</summary>
    public const string LabourExempt = "Not taxed";

    public bool ChargesTax => Treatment == TaxTreatment.Charged;

    public bool IsRegistered => Treatment != TaxTreatment.NotRegistered;

    public static TaxTerms Of(TaxProfile profile) => new(
        profile.Id, profile.Name, profile.Treatment, profile.PricesIncludeTax && profile.Treatment == TaxTreatment.Charged,
        profile.TaxesLabour, profile.Rounding, profile.Reason, profile.CashAccounting);

    /// <summary>A shop without profiles: registered or not, prices with or without tax.</summary>
    public static TaxTerms Of(ShopSettings shop) => new(
        null, "", shop.TaxRegistered ? TaxTreatment.Charged : TaxTreatment.NotRegistered, shop.PricesIncludeTax, true, TaxRounding.PerRate, "", false);

    /// <summary>
    /// The profile asked for, if it may be used on that day; else the customer's own; else the usual one; else the shop's settings.
    /// </summary>
    public static TaxTerms For(ShopSettings shop, IEnumerable<TaxProfile> profiles, Guid? wanted, Guid? customers, DateOnly day)
    {
        var valid = profiles.Where(profile => profile.IsValidOn(day)).ToList();
        var chosen = valid.FirstOrDefault(profile => profile.Id == wanted)
            ?? valid.FirstOrDefault(profile => profile.Id == customers)
            ?? valid.FirstOrDefault(profile => profile.IsUsual);
        return chosen is null ? Of(shop) : Of(chosen);
    }

    /// <summary>What a line is taxed with where the profile and not the line's rate decides; null where the line's own rate holds.</summary>
    public TaxKey? Fixed(bool isLabour) => Treatment switch
    {
        TaxTreatment.Charged => isLabour && !TaxesLabour ? new TaxKey(TaxCategory.Exempt, LabourExempt, 0) : null,
        TaxTreatment.Export => new TaxKey(TaxCategory.Export, "Export", 0),
        TaxTreatment.ReverseCharge => new TaxKey(TaxCategory.ReverseCharge, "Reverse charge", 0),
        TaxTreatment.Exempt => new TaxKey(TaxCategory.Exempt, "Exempt", 0),
        _ => new TaxKey(TaxCategory.OutsideScope, "", 0),
    };

    /// <summary>Why a category carries no tax, as it is printed and as BT-120; null where it needs no reason.</summary>
    public string? ReasonFor(TaxCategory category) => category switch
    {
        TaxCategory.Standard or TaxCategory.Zero => null,
        TaxCategory.Exempt when ChargesTax => Reason.Length > 0 ? Reason : "Labour is not subject to this sales tax",
        _ when Reason.Length > 0 => Reason,
        TaxCategory.ReverseCharge => "The customer accounts for the tax",
        TaxCategory.Export => "Export, zero-rated",
        TaxCategory.OutsideScope => "The seller is not registered for tax",
        _ => null,
    };
}
