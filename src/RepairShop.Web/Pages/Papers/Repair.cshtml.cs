using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Paperwork;
using RepairShop.Services.Paperwork;
using RepairShop.Services.Post;
using RepairShop.Web.Forms;
using RepairShop.Web.Pages.Money;

namespace RepairShop.Web.Pages.Papers;

/// <summary>The papers of one repair: what there is, and making more.</summary>
public sealed class RepairModel(PaperService papers, PostService post) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(CancellationToken cancel) => await LoadAsync(cancel) ? Page() : NotFound();

    public Task<IActionResult> OnPostAsync(PaperKind kind, CancellationToken cancel) => MakeAsync(kind, byMail: false, cancel);

    public Task<IActionResult> OnPostMailAsync(PaperKind kind, CancellationToken cancel) => MakeAsync(kind, byMail: true, cancel);

    private async Task<IActionResult> MakeAsync(PaperKind kind, bool byMail, CancellationToken cancel)
    {
        var made = await papers.MakeAsync(Number, kind, $"{Request.Scheme}://{Request.Host}{Request.PathBase}", byMail, cancel);
        return await PageResults.Answer(
            this, made, made.IsDone ? PaperNotice.Of(made.Value, byMail ? "is made and goes out by e-mail" : "is made: open it to print") : null,
            _ => RedirectToPage("Repair", null, new { Number }), () => LoadAsync(cancel));
    }

    private async Task<bool> LoadAsync(CancellationToken cancel)
    {
        var list = await papers.ListAsync(Number, cancel);
        if (list.Value is not { } found)
            return false;
        Shown = new View(found, await post.OfRepairAsync(found.RepairId, cancel));
        return true;
    }

    public sealed record View(PaperList List, IReadOnlyList<MailView> Letters);
}
