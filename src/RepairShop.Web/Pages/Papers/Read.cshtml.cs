using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Paperwork;
using RepairShop.Services.Paperwork;

namespace RepairShop.Web.Pages.Papers;

/// <summary>The same facts as the print, as a page every reader and screen can take in.</summary>
public sealed class ReadModel(PaperService papers) : PageModel
{
    public PaperPage Paper { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken cancel)
    {
        var paper = await papers.ReadAsync(id, cancel);
        if (paper.Value is not { } found)
            return NotFound();
        Paper = found;
        return Page();
    }

    public static string Name(CameraFacts camera) => string.Join(", ", new[]
    {
        $"{camera.Maker} {camera.Model}", camera.Variant, camera.Format, Serial("body", camera.BodySerial), camera.Lens, Serial("lens", camera.LensSerial),
        camera.Shutter, Serial("shutter", camera.ShutterSerial), camera.ShutterKind,
    }.Where(part => !string.IsNullOrEmpty(part)));

    private static string? Serial(string what, string? number) => number is null ? null : $"{what} no. {number}";
}
