using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Repairs;

namespace RepairShop.Web.Pages.Repairs;

/// <summary>Just booked in: the number, and what one does next with the camera in hand.</summary>
public sealed class BookedModel(SheetService sheets) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    public RepairSheet Sheet { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        var found = await sheets.GetAsync(Number, ct);
        if (!found.IsDone)
            return NotFound();
        Sheet = found.Value;
        return Page();
    }
}
