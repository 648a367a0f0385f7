using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Notebook;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Notebook;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

public sealed class PhotosModel(NotebookService pages, ModelPhotoService photos) : PageModel
{
    public ModelPageView Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct) => await LoadAsync(id, ct) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(Guid id, List<IFormFile> files, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        var uploads = await Uploads.ReadAsync(files, ct);
        if (uploads.Count == 0)
            return this.Note(new NoPhotoChosen()) ?? await this.ShowAgain();
        var added = await photos.AddAsync(id, uploads, ct);
        foreach (var refused in added.Value?.Refused ?? [])
            ModelState.AddModelError("Photos", refused.Message);
        return ModelState.IsValid
            ? await this.Answer(added, added.Value is { Count: 1 } ? "The picture is added." : "The pictures are added.", _ => RedirectToPage(new { id }))
            : await this.ShowAgain(() => LoadAsync(id, ct));
    }

    public async Task<IActionResult> OnPostCaptionAsync(Guid id, Guid photo, string? caption, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        if (caption is { Length: > NotebookRules.CaptionLength })
            ModelState.AddModelError("", $"A caption has at most {NotebookRules.CaptionLength} letters: shorten it.");
        return ModelState.IsValid
            ? await this.Answer(await photos.CaptionAsync(id, photo, caption ?? "", ct), "The caption is saved.", () => RedirectToPage(new { id }))
            : await this.ShowAgain();
    }

    public async Task<IActionResult> OnPostTakeOffAsync(Guid id, Guid photo, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        var taken = await photos.TakeOffAsync(id, photo, ct);
        if (taken.IsDone)
            this.Tell("The picture is taken off.", Url.Page("Photos", "PutBack", new { id, photo }));
        return await this.Answer(taken, null, () => RedirectToPage(new { id }));
    }

    public async Task<IActionResult> OnPostPutBackAsync(Guid id, Guid photo, CancellationToken ct) => await this.Answer(
        await photos.PutBackAsync(id, photo, ct), "The picture is back.", () => RedirectToPage(new { id }), () => LoadAsync(id, ct));

    private async Task<bool> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await pages.GetAsync(id, ct);
        Shown = found.Value!;
        return found.IsDone;
    }
}
