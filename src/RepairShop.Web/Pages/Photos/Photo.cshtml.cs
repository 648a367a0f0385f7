using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Repairs;

namespace RepairShop.Web.Pages.Photos;

public sealed class PhotoModel(PhotoService photos) : PageModel
{
    public Task<IActionResult> OnGetAsync(Guid id, string? size, CancellationToken ct) =>
        PhotoAnswer.Of(this, size, small => photos.OpenAsync(id, small, ct));
}
