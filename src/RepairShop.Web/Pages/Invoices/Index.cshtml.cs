using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Invoices;

namespace RepairShop.Web.Pages.Invoices;

/// <summary>All invoices, the open ones first.</summary>
public sealed class IndexModel(InvoiceListService invoices) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public InvoiceShow Show { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Q { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? After { get; set; }

    public InvoicePage Invoices { get; private set; } = new([], null);

    public async Task OnGetAsync(CancellationToken cancel) => Invoices = await invoices.ListAsync(Show, Q ?? "", After, cancel);
}
