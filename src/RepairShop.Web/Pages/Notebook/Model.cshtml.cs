using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Notebook;
using RepairShop.Services.Tools;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>Everything known about one model on one page, read from top to bottom as the job goes, and printed the same way.</summary>
public sealed class ModelModel(NotebookService pages, ToolService tools) : PageModel
{
    public ModelPageView Shown { get; private set; } = null!;

    /// <summary>Of the register of tools: those written down to fit this model.</summary>
    public IReadOnlyList<ToolLine> Register { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct)
    {
        var found = await pages.GetAsync(id, ct);
        Shown = found.Value!;
        if (!found.IsDone)
            return NotFound();
        Register = await tools.FittingAsync(found.Value.Head.Model, ct);
        return Page();
    }
}
