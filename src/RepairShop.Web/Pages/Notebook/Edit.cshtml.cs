using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Services.Notebook;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

public sealed class EditModel(NotebookService pages) : PageModel
{
    [BindProperty]
    public ModelInput Input { get; set; } = new();

    public ModelPageView Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        Input = ModelInput.Of(Shown.Head);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var saved = await pages.ChangeAsync(id, Input.Typed(), ct);
        if (saved.Failure is ChangedMeanwhile)
            Input.Version = Shown.Head.Version; // what is stored now was shown beside it: saving again is then a choice
        return await this.Answer(saved, "The page is saved.", () => RedirectToPage("Model", new { id }));
    }

    public async Task<IActionResult> OnPostRemoveAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        ModelState.Clear();
        var removed = await pages.RemoveAsync(id, ct);
        if (removed.IsDone)
            this.Tell($"The page of {Shown.Name} is removed.", Url.Page("Edit", "BringBack", new { id }));
        return await this.Answer(removed, null, () => RedirectToPage("Index"));
    }

    public async Task<IActionResult> OnPostBringBackAsync(Guid id, CancellationToken ct)
    {
        ModelState.Clear();
        return await LoadAsync(id, ct)
            ? await this.Answer(await pages.BringBackAsync(id, ct), "The page is back.", () => RedirectToPage("Model", new { id }))
            : NotFound();
    }

    private async Task<bool> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await pages.GetAsync(id, ct);
        Shown = found.Value!;
        return found.IsDone;
    }
}
