using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Services.Recordings;
using RepairShop.Services.Repairs;

namespace RepairShop.Web.Pages.Recordings;

/// <summary>The raw file as it came in.</summary>
public sealed class FileModel(WorkService work, RecordingReadService recordings) : PageModel
{
    public string Damage { get; private set; } = "";

    public async Task<IActionResult> OnGetAsync(string number, Guid id, CancellationToken ct)
    {
        if (await work.FindAsync(number, ct) is not { } repair)
            return NotFound();
        var opened = await recordings.OpenAsync(repair.Id, id, ct);
        if (opened.Failure is NotFound)
            return NotFound();
        if (!opened.IsDone)
        {
            Damage = opened.Failure.Message;
            Response.StatusCode = StatusCodes.Status500InternalServerError;
            return Page();
        }

        Response.Headers.CacheControl = "private, no-cache";
        return File(opened.Value.Content, "application/octet-stream", opened.Value.FileName);
    }
}
