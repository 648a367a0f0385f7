using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Notebook;
using RepairShop.Services.Notebook;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

public sealed class NewEntryModel(NotebookService pages, EntryService entries) : PageModel
{
    [BindProperty]
    public EntryInput Input { get; set; } = new();

    public ModelPageView Shown { get; private set; } = null!;

    /// <param name="id"></param>
    /// <param name="kind">Which kind is added.</param>
    /// <param name="title">A component met here that is not written down yet.</param>
    /// <param name="ct"></param>
    public async Task<IActionResult> OnGetAsync(Guid id, EntryKind kind, string? title, CancellationToken ct)
    {
        (Input.Kind, Input.Title) = (kind, title);
        return ModelState.IsValid && await LoadAsync(id, ct) ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, bool another, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        return await this.Answer(
            await entries.AddAsync(id, Input.Typed(), Input.Once, ct), $"Added: {EntryText.Name(Input.Typed())}.",
            _ => another ? RedirectToPage(new { id, kind = Input.Kind }) : RedirectToPage("Model", new { id }));
    }

    private async Task<bool> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await pages.GetAsync(id, ct);
        Shown = found.Value!;
        ViewData["Suggest"] = found.Value is { } view ? Suggestions.For(Input.Kind, view) : [];
        return found.IsDone;
    }
}
