using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Labour;
using RepairShop.Services.Repairs;

namespace RepairShop.Web.Pages.Work;

/// <summary>The repair for oily fingers: the clock, a finding with a photo, and the next thing the job waits for.</summary>
public sealed class BenchModel(WorkService work, LabourService labour) : PageModel
{
    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct)
    {
        if (await work.FindAsync(number, ct) is not { } repair)
            return NotFound();
        Shown = new View(repair, await labour.ForRepairAsync(repair.Id, ct, withActivities: false), await work.NextAsync(repair, ct));
        return Page();
    }

    public sealed record View(RepairHead Repair, HoursView Hours, BenchStep? Next)
    {
        public bool RunsHere => Hours.Mine?.RepairId == Repair.Id;
    }
}
