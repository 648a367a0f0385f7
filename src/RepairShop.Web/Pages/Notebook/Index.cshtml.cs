using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Database;
using RepairShop.Services.Notebook;

namespace RepairShop.Web.Pages.Notebook;

public sealed class IndexModel(NotebookService pages, NotebookSearchService search) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "q")]
    public string? Typed { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? After { get; set; }

    public ListPage<ModelLine> List { get; private set; } = new([], null, []);

    /// <summary>Null while nothing was looked for.</summary>
    public IReadOnlyList<ModelFound>? Found { get; private set; }

    public async Task OnGetAsync(CancellationToken ct)
    {
        if (string.IsNullOrWhiteSpace(Typed))
            List = await pages.ListAsync(After, ct);
        else
            Found = await search.FindAsync(Typed, ct);
    }
}
