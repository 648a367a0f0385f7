using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Notebook;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>From a repair to what the notebook knows of its model, or the offer to start a page.</summary>
public sealed class NotebookLineViewComponent(NotebookService pages) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync(Guid repairId, string number) =>
        await pages.OfRepairAsync(repairId, HttpContext.RequestAborted) is { } link ? View(new Line(link, number)) : Content("");

    public sealed record Line(NotebookLink Link, string Number);
}
