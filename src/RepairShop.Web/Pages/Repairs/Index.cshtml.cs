using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Database;
using RepairShop.Services.Repairs;

namespace RepairShop.Web.Pages.Repairs;

public sealed class IndexModel(RepairListService list) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "q")]
    public string? Typed { get; set; }

    /// <summary>"open", a stage's name, or nothing for all.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Show { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? After { get; set; }

    public ListPage<RepairLine> List { get; private set; } = null!;

    public async Task OnGetAsync(CancellationToken ct)
    {
        Stage? stage = Enum.TryParse<Stage>(Show, out var named) && Enum.IsDefined(named) ? named : null;
        List = await list.ListAsync(new RepairFilter(Typed, Show == "open", stage, After), ct);
    }
}
