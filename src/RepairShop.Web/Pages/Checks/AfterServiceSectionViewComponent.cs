using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Checks;
using RepairShop.Services.ShutterTests;

namespace RepairShop.Web.Pages.Checks;

/// <summary>After service: before and after side by side, in tables and a chart.</summary>
public sealed class AfterServiceSectionViewComponent(CheckService checks, ShutterTestService tests) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync(Guid repairId, string number) =>
        View(await TestedView.OfAsync(HttpContext, checks, tests, repairId, number));
}
