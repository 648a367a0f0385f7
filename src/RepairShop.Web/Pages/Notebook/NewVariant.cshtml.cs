using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Notebook;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

public sealed class NewVariantModel(NotebookService pages, VariantService variants) : PageModel
{
    [BindProperty]
    public VariantInput Input { get; set; } = new();

    public ModelPageView Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct) => await LoadAsync(id, ct) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(Guid id, bool another, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        return await this.Answer(
            await variants.AddAsync(id, Input.Typed(), Input.Once, ct), $"Added: {Input.Name}.",
            _ => another ? RedirectToPage(new { id }) : RedirectToPage("Model", new { id }));
    }

    private async Task<bool> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await pages.GetAsync(id, ct);
        Shown = found.Value!;
        ViewData["Suggest"] = found.Value is { } view ? Suggestions.Traits(view, except: null) : [];
        return found.IsDone;
    }
}
