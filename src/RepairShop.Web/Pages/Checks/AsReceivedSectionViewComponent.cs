using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Checks;
using RepairShop.Services.ShutterTests;

namespace RepairShop.Web.Pages.Checks;

/// <summary>As received: checks and shutter test, as they stand on the sheet.</summary>
public sealed class AsReceivedSectionViewComponent(CheckService checks, ShutterTestService tests) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync(Guid repairId, string number) =>
        View(await TestedView.OfAsync(HttpContext, checks, tests, repairId, number));
}
