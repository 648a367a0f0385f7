using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Services.Paperwork;

namespace RepairShop.Web.Pages.Papers;

/// <summary>The electronic invoice stored beside a paper, as a file to keep.</summary>
public sealed class EInvoiceModel(PaperService papers) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    public string Damage { get; private set; } = "";

    public async Task<IActionResult> OnGetAsync(CancellationToken cancel)
    {
        var file = await papers.OpenEInvoiceAsync(Id, cancel);
        if (file.Failure is NotFound)
            return NotFound();
        if (!file.IsDone)
        {
            Damage = file.Failure.Message;
            Response.StatusCode = StatusCodes.Status500InternalServerError;
            return Page();
        }
        Response.Headers.CacheControl = "private, no-cache";
        return File(file.Value.Bytes, "application/xml", file.Value.FileName);
    }
}
