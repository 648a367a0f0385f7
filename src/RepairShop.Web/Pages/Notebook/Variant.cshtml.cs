using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Services.Notebook;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

public sealed class VariantModel(NotebookService pages, VariantService variants) : PageModel
{
    [BindProperty]
    public VariantInput Input { get; set; } = new();

    public ModelPageView Shown { get; private set; } = null!;

    private VariantTyped Stored { get; set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, Guid variantId, CancellationToken ct)
    {
        if (!await LoadAsync(id, variantId, ct))
            return NotFound();
        Input = VariantInput.Of(Stored);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, Guid variantId, CancellationToken ct)
    {
        if (!await LoadAsync(id, variantId, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var saved = await variants.ChangeAsync(id, variantId, Input.Typed(), ct);
        if (saved.Failure is ChangedMeanwhile)
            Input.Version = Stored.Version;
        return await this.Answer(saved, $"Saved: {Input.Name}.", () => RedirectToPage("Model", new { id }));
    }

    public async Task<IActionResult> OnPostRemoveAsync(Guid id, Guid variantId, CancellationToken ct)
    {
        if (!await LoadAsync(id, variantId, ct))
            return NotFound();
        ModelState.Clear();
        var removed = await variants.RemoveAsync(id, variantId, ct);
        if (removed.IsDone)
            this.Tell($"Removed: {Stored.Name}.", Url.Page("Variant", "BringBack", new { id, variantId }));
        return await this.Answer(removed, null, () => RedirectToPage("Model", new { id }));
    }

    public async Task<IActionResult> OnPostBringBackAsync(Guid id, Guid variantId, CancellationToken ct)
    {
        ModelState.Clear();
        return await this.Answer(await variants.BringBackAsync(id, variantId, ct), "The variant is back.", () => RedirectToPage("Model", new { id }));
    }

    private async Task<bool> LoadAsync(Guid id, Guid variantId, CancellationToken ct)
    {
        var (page, variant) = (await pages.GetAsync(id, ct), await variants.GetAsync(id, variantId, ct));
        (Shown, Stored) = (page.Value!, variant.Value!);
        ViewData["Suggest"] = page.Value is { } view ? Suggestions.Traits(view, variantId) : [];
        return page.IsDone && variant.IsDone;
    }
}
