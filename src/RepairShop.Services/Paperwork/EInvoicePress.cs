using RepairShop.Documents.EInvoices;
using RepairShop.Domain.EInvoices;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Services.Paperwork;

/// <summary>The electronic invoice of a paper: its bytes, or what is missing for it.</summary>
internal sealed record ElectronicInvoice(byte[]? Bytes, IReadOnlyList<EInvoiceFault> Faults);

/// <summary>Writes the electronic invoice where the shop asks for one.</summary>
internal static class EInvoicePress
{
    /// <returns>Nothing where the shop wants none; a refusal where it never issues without.</returns>
    public static Result<ElectronicInvoice> Of(ShopSettings shop, InvoiceFacts facts)
    {
        if (shop.EInvoices == EInvoiceUse.Never)
            return new ElectronicInvoice(null, []);
        var invoice = EInvoiceBuilder.Of(facts);
        var faults = EInvoiceRules.Check(invoice);
        if (faults.Count == 0)
            return new ElectronicInvoice(UblInvoice.Write(invoice), []);
        return shop.EInvoices == EInvoiceUse.Always ? new EInvoiceIncomplete(faults) : new ElectronicInvoice(null, faults);
    }
}
