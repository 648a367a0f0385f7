using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Parts;

namespace RepairShop.Web.Pages.Parts;

/// <summary>Parts as they stand on the sheet.</summary>
public sealed class PartsSectionViewComponent(PartUseService uses) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync(Guid repairId, string number) =>
        View(new SectionView(number, await uses.ForRepairAsync(repairId, HttpContext.RequestAborted)));

    public sealed record SectionView(string Number, PartsView Parts);
}
