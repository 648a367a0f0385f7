using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Paperwork;

namespace RepairShop.Web.Pages.Papers;

/// <summary>The papers on the repair's sheet.</summary>
public sealed class PapersSection(PaperService papers) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync(string number) =>
        (await papers.ListAsync(number, HttpContext.RequestAborted)).Value is { } list ? View(list) : Content("");
}
