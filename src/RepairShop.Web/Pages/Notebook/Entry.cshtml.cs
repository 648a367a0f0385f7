using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Services.Notebook;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

public sealed class EntryModel(NotebookService pages, EntryService entries) : PageModel
{
    [BindProperty]
    public EntryInput Input { get; set; } = new();

    public ModelPageView Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, Guid entryId, CancellationToken ct)
    {
        if (await LoadAsync(id, entryId, ct) is not { } stored)
            return NotFound();
        Input = EntryInput.Of(stored);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, Guid entryId, CancellationToken ct)
    {
        if (await LoadAsync(id, entryId, ct) is not { } stored)
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var saved = await entries.ChangeAsync(id, entryId, Input.Typed(), ct);
        if (saved.Failure is ChangedMeanwhile)
            Input.Version = stored.Version;
        return await this.Answer(saved, $"Saved: {EntryText.Name(Input.Typed())}.", () => RedirectToPage("Model", new { id }));
    }

    public async Task<IActionResult> OnPostRemoveAsync(Guid id, Guid entryId, CancellationToken ct)
    {
        if (await LoadAsync(id, entryId, ct) is not { } stored)
            return NotFound();
        ModelState.Clear();
        var removed = await entries.RemoveAsync(id, entryId, ct);
        if (removed.IsDone)
            this.Tell($"Removed: {EntryText.Name(stored)}.", Url.Page("Entry", "BringBack", new { id, entryId }));
        return await this.Answer(removed, null, () => RedirectToPage("Model", new { id }));
    }

    public async Task<IActionResult> OnPostBringBackAsync(Guid id, Guid entryId, CancellationToken ct)
    {
        ModelState.Clear();
        return await this.Answer(await entries.BringBackAsync(id, entryId, ct), "It is back where it was.", () => RedirectToPage("Model", new { id }));
    }

    private async Task<EntryTyped?> LoadAsync(Guid id, Guid entryId, CancellationToken ct)
    {
        var (page, entry) = (await pages.GetAsync(id, ct), await entries.GetAsync(id, entryId, ct));
        Shown = page.Value!;
        ViewData["Suggest"] = page.Value is { } view && entry.Value is { } stored ? Suggestions.For(stored.Kind, view) : [];
        return page.IsDone ? entry.Value : null;
    }
}
