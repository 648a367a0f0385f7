using Microsoft.AspNetCore.Mvc;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>The strip-down as it stands on the sheet: how far it has come, what is out, the trays small.</summary>
public sealed class StripDownSectionViewComponent(StripDownService strip, WorkService work) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync(Guid repairId, string number)
    {
        var cancel = HttpContext.RequestAborted;
        var record = await strip.OfAsync(repairId, cancel);
        var head = new RepairHead(repairId, number, "", "", false, false);
        return View(new SectionView(new StripView(head, record), record.Progress.HasStarted && await work.IsDeclinedAsync(repairId, cancel)));
    }

    public sealed record SectionView(StripView Strip, bool Declined);
}
