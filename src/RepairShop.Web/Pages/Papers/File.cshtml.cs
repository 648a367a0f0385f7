using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.Net.Http.Headers;
using RepairShop.Domain.Results;
using RepairShop.Services.Paperwork;

namespace RepairShop.Web.Pages.Papers;

/// <summary>A paper's very bytes, checked against their hash each time they are given out.</summary>
public sealed class FileModel(PaperService papers) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    public string Damage { get; private set; } = "";

    public async Task<IActionResult> OnGetAsync(CancellationToken cancel)
    {
        var paper = await papers.OpenAsync(Id, cancel);
        if (paper.Failure is NotFound)
            return NotFound();
        if (!paper.IsDone)
        {
            Damage = paper.Failure.Message;
            Response.StatusCode = StatusCodes.Status500InternalServerError;
            return Page();
        }
        var disposition = new ContentDispositionHeaderValue("inline");
        disposition.SetHttpFileName(paper.Value.FileName);
        Response.Headers.ContentDisposition = disposition.ToString();
        Response.Headers.CacheControl = "private, no-cache"; // asked again each time, answered with 304 when unchanged
        return new FileContentResult(paper.Value.Bytes, "application/pdf") { EntityTag = new EntityTagHeaderValue($"\"{paper.Value.Hash}\"") };
    }
}
