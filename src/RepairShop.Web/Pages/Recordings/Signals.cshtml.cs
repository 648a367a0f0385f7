using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Recordings;
using RepairShop.Services.Repairs;

namespace RepairShop.Web.Pages.Recordings;

/// <summary>Each speed's light before and after, laid over each other.</summary>
public sealed class SignalsModel(WorkService work, RecordingReadService recordings) : PageModel
{
    public RepairHead Repair { get; private set; } = null!;

    public SignalsView Signals { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct)
    {
        if (await work.FindAsync(number, ct) is not { } repair)
            return NotFound();
        (Repair, Signals) = (repair, await recordings.SignalsAsync(repair.Id, ct));
        return Page();
    }
}
