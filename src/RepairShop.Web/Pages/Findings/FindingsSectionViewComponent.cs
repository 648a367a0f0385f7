using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Findings;

namespace RepairShop.Web.Pages.Findings;

/// <summary>Findings as they stand on the sheet.</summary>
public sealed class FindingsSectionViewComponent(FindingService findings) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync(Guid repairId, string number) =>
        View(new SectionView(number, await findings.ForRepairAsync(repairId, HttpContext.RequestAborted)));

    public sealed record SectionView(string Number, IReadOnlyList<FindingLine> Findings);
}
