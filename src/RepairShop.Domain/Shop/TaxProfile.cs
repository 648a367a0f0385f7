using RepairShop.Domain.Invoices;

namespace RepairShop.Domain.Shop;

/// <summary>A way of taxing: the usual one, and one for each sort of customer that is taxed otherwise. What was issued keeps its own copy.</summary>
public sealed class TaxProfile
{
    public Guid Id { get; set; } = Guid.CreateVersion7();

    /// <summary>As the shop calls it: "Home, VAT added", "Business abroad".</summary>
    public string Name { get; set; } = "";

    public TaxTreatment Treatment { get; set; }

    /// <summary>Prices are typed with the tax in them, as with most GST; only where tax is charged.</summary>
    public bool PricesIncludeTax { get; set; }

    /// <summary>False for a sales tax that goes on parts only: labour is then billed as exempt.</summary>
    public bool TaxesLabour { get; set; } = true;

    public TaxRounding Rounding { get; set; }

    /// <summary>Printed where no tax is charged, and BT-120 of an e-invoice: the law's own words; empty takes a plain sentence.</summary>
    public string Reason { get; set; } = "";

    /// <summary>Tax falls due when the money comes in: "Cash accounting" is printed (Directive 2006/112/EC art. 226 (7a)).</summary>
    public bool CashAccounting { get; set; }

    /// <summary>First day it may be used, by the day the work was done; null for always.</summary>
    public DateOnly? ValidFrom { get; set; }

    /// <summary>Last day it may be used; null for ever.</summary>
    public DateOnly? ValidUntil { get; set; }

    /// <summary>Taken unless a customer or an invoice says otherwise.</summary>
    public bool IsUsual { get; set; }

    public DateTimeOffset? RetiredAt { get; set; }

    public uint Version { get; set; }

    public bool IsValidOn(DateOnly day) => RetiredAt is null && !(day < ValidFrom) && !(day > ValidUntil);
}

/// <summary>Whether tax is charged, and if not, why not.</summary>
public enum TaxTreatment
{
    /// <summary>At the rates of the lines.</summary>
    Charged,

    /// <summary>The shop is not registered for tax (UNCL5305 O).</summary>
    NotRegistered,

    /// <summary>Zero-rated, to a customer outside the country or the EU (G).</summary>
    Export,

    /// <summary>A business abroad accounts for the tax itself, by its number (AE).</summary>
    ReverseCharge,

    /// <summary>Exempt for a reason the profile names (E).</summary>
    Exempt,
}
