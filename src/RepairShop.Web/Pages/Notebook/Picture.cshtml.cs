using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Notebook;
using RepairShop.Web.Pages.Photos;

namespace RepairShop.Web.Pages.Notebook;

public sealed class PictureModel(ModelPhotoService photos) : PageModel
{
    public Task<IActionResult> OnGetAsync(Guid photo, string? size, CancellationToken ct) =>
        PhotoAnswer.Of(this, size, small => photos.OpenAsync(photo, small, ct));
}
