using RepairShop.Documents.EInvoices;
using RepairShop.Domain.EInvoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Paperwork;

/// <summary>The electronic invoice of a paper in both syntaxes, or what is missing for it.</summary>
/// <param name="Ubl">The file beside the paper; null where there is none.</param>
/// <param name="Cii">The same inside the paper's PDF.</param>
/// <param name="Faults"></param>
internal sealed record ElectronicInvoice(byte[]? Ubl, byte[]? Cii, IReadOnlyList<EInvoiceFault> Faults);

/// <summary>Writes the electronic invoice where the shop asks for one.</summary>
internal static class EInvoicePress
{
    /// <returns>Nothing where the shop wants none; a refusal where it never issues without.</returns>
    public static Result<ElectronicInvoice> Of(ShopSettings shop, InvoiceFacts facts)
    {
        if (shop.EInvoices == EInvoiceUse.Never)
            return new ElectronicInvoice(null, null, []);
        var invoice = EInvoiceBuilder.Of(facts);
        var faults = EInvoiceRules.Check(invoice);
        if (faults.Count == 0)
            return new ElectronicInvoice(UblInvoice.Write(invoice), CiiInvoice.Write(invoice), []);
        return shop.EInvoices == EInvoiceUse.Always ? new EInvoiceIncomplete(faults) : new ElectronicInvoice(null, null, faults);
    }
}
