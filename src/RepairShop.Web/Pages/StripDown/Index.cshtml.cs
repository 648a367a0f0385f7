using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>The record in the order of taking apart, with the trays beside it.</summary>
public sealed class IndexModel(WorkService work, StripDownService strip) : PageModel
{
    public StripView Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct)
    {
        if (await StripView.LoadAsync(work, strip, number, ct) is not { } view)
            return NotFound();
        Shown = view;
        return Page();
    }
}
