using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Estimates;

namespace RepairShop.Web.Pages.Estimates;

/// <summary>The estimate on the repair's sheet.</summary>
public sealed class EstimateSection(EstimateService estimates) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync(string number) =>
        (await estimates.SheetAsync(number, HttpContext.RequestAborted)).Value is { } sheet ? View(sheet) : Content("");
}
