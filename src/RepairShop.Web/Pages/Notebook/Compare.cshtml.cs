using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Notebook;
using RepairShop.Services.Notebook;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>One version of a guide against another.</summary>
public sealed class CompareModel(NotebookService pages, GuideService guides) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public int From { get; set; }

    [BindProperty(SupportsGet = true)]
    public int To { get; set; }

    public Guid Id { get; private set; }

    public string Name { get; private set; } = "";

    public IReadOnlyList<int> Numbers { get; private set; } = [];

    public IReadOnlyList<StepPair> Lines { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct)
    {
        var (page, one, other) = (await pages.GetAsync(id, ct), await guides.GetAsync(id, From, ct), await guides.GetAsync(id, To, ct));
        if (!page.IsDone || !one.IsDone || !other.IsDone)
            return NotFound();
        (Id, Name) = (id, page.Value.Name);
        Numbers = [.. Enumerable.Range(1, one.Value.Newest)];
        Lines = GuideDifferences.Between(one.Value.Steps, other.Value.Steps);
        return Page();
    }
}
