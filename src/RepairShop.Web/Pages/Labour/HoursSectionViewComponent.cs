using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Labour;

namespace RepairShop.Web.Pages.Labour;

/// <summary>Hours as they stand on the sheet, with the clock.</summary>
public sealed class HoursSectionViewComponent(LabourService labour) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync(Guid repairId, string number) =>
        View(new SectionView(repairId, number, await labour.ForRepairAsync(repairId, HttpContext.RequestAborted, withActivities: false)));

    public sealed record SectionView(Guid RepairId, string Number, HoursView Hours);
}
