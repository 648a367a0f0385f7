using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Worksheets;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class IndexModel(WorksheetService sheets) : PageModel
{
    public WorksheetRepair Repair { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct)
    {
        if (await sheets.OpenAsync(number, ct) is not { } repair)
            return NotFound();
        Repair = repair;
        return Page();
    }
}
