using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;

namespace RepairShop.Web.Pages.Photos;

/// <summary>The bytes of a photo, whole or small. They never change under one address, so the browser may keep them; nobody in
/// between may.</summary>
internal static class PhotoAnswer
{
    /// <param name="page">The page that was asked.</param>
    /// <param name="size">From the address: small or nothing.</param>
    /// <param name="open">Opens the picture; given whether it is to be small.</param>
    public static async Task<IActionResult> Of(PageModel page, string? size, Func<bool, Task<Result<Stream>>> open)
    {
        if (size is not (null or "small"))
            return page.NotFound();
        var opened = await open(size == "small");
        if (!opened.IsDone)
            return page.NotFound();
        page.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
        return page.File(opened.Value, "image/jpeg");
    }
}
