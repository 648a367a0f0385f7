using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Invoices;

namespace RepairShop.Web.Pages.Invoices;

/// <summary>The money on the repair's sheet.</summary>
public sealed class MoneySection(InvoiceReadService invoices) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync(string number) =>
        (await invoices.SheetAsync(number, HttpContext.RequestAborted)).Value is { } sheet ? View(sheet) : Content("");
}
