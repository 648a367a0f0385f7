using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Notebook;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>The newest version of a guide or an older one, and how it became what it is.</summary>
public sealed class GuideModel(NotebookService pages, GuideService guides) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public int? Version { get; set; }

    public ModelPageView Shown { get; private set; } = null!;

    public GuideView? Guide { get; private set; }

    public IReadOnlyList<GuideLine> Versions { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct) => await LoadAsync(id, ct) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAgainAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct) || Guide is null)
            return NotFound();
        var saved = await guides.SaveGuideAsync(id, Guide.Steps, new GuideOrigin($"Version {Guide.Number} again", BasedOn: Guide.Newest), ct);
        return await this.Answer(saved, $"Version {Guide.Number} is the newest again.", _ => RedirectToPage(new { id }));
    }

    private async Task<bool> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await pages.GetAsync(id, ct);
        if (!found.IsDone)
            return false;
        (Shown, Guide) = (found.Value, Version is { } number ? (await guides.GetAsync(id, number, ct)).Value : found.Value.Guide);
        Versions = await guides.VersionsAsync(id, ct);
        return Version is null || Guide is not null;
    }
}
