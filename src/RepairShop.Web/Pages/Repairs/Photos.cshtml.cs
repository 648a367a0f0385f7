using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Repairs;

/// <summary>Photos of one repair: add, caption, take off, put back.</summary>
public sealed class PhotosModel(SheetService sheets, PhotoService photos) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    /// <summary>The finding the photos show; none for the repair as a whole.</summary>
    [BindProperty(SupportsGet = true)]
    public Guid? Finding { get; set; }

    public RepairSheet Sheet { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        await Load(ct);
        return Sheet is null ? NotFound() : Page();
    }

    public async Task<IActionResult> OnPostAsync(List<IFormFile> files, CancellationToken ct)
    {
        var uploads = await Uploads.ReadAsync(files, ct);
        if (uploads.Count == 0)
            return this.Note(new NoPhotoChosen()) ?? await this.ShowAgain(() => Load(ct));
        var added = await photos.AddAsync(Number, uploads, ct, Finding);
        foreach (var refused in added.Value?.Refused ?? [])
            ModelState.AddModelError("Photos", added.Value!.Count > 0 ? $"{refused.Message} The others are kept." : refused.Message);
        var words = added.Value is { Count: 1 } ? "The photo is added." : $"{added.Value?.Count} photos are added.";
        return ModelState.IsValid
            ? await this.Answer(added, words, _ => Finding is null ? RedirectToPage() : RedirectToPage("/Findings/Index", new { number = Number }))
            : await this.ShowAgain(() => Load(ct));
    }

    public async Task<IActionResult> OnPostCaptionAsync(Guid id, string? caption, CancellationToken ct) => await this.Answer(
        await photos.CaptionAsync(Number, id, caption ?? "", ct), "The caption is saved.", () => RedirectToPage(), () => Load(ct));

    public async Task<IActionResult> OnPostTakeOffAsync(Guid id, CancellationToken ct)
    {
        var taken = await photos.TakeOffAsync(Number, id, ct);
        if (taken.IsDone)
            this.Tell("The photo is taken off.", Url.Page("Photos", "PutBack", new { Number, id }));
        return await this.Answer(taken, null, () => RedirectToPage(), () => Load(ct));
    }

    public async Task<IActionResult> OnPostPutBackAsync(Guid id, CancellationToken ct) => await this.Answer(
        await photos.PutBackAsync(Number, id, ct), "The photo is back.", () => RedirectToPage(), () => Load(ct));

    private async Task Load(CancellationToken ct) => Sheet = (await sheets.GetAsync(Number, ct)).Value!;
}
