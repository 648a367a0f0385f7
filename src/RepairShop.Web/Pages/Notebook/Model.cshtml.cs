using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Notebook;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>Everything known about one model on one page, read from top to bottom as the job goes, and printed the same way.</summary>
public sealed class ModelModel(NotebookService pages) : PageModel
{
    public ModelPageView Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct)
    {
        var found = await pages.GetAsync(id, ct);
        Shown = found.Value!;
        return found.IsDone ? Page() : NotFound();
    }
}
