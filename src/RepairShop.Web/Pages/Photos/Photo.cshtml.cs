using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Repairs;

namespace RepairShop.Web.Pages.Photos;

/// <summary>A photo's bytes. They never change under one address, so the browser may keep them; nobody in between may.</summary>
public sealed class PhotoModel(PhotoService photos) : PageModel
{
    public async Task<IActionResult> OnGetAsync(Guid id, string? size, CancellationToken ct)
    {
        if (size is not (null or "small"))
            return NotFound();
        var opened = await photos.OpenAsync(id, thumbnail: size == "small", ct);
        if (!opened.IsDone)
            return NotFound();
        Response.Headers.CacheControl = "private, max-age=31536000, immutable";
        return File(opened.Value, "image/jpeg");
    }
}
