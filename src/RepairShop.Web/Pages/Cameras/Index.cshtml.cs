using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Cameras;
using RepairShop.Services.Database;

namespace RepairShop.Web.Pages.Cameras;

public sealed class IndexModel(CameraService cameras) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "q")]
    public string? Typed { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? After { get; set; }

    public ListPage<CameraLine> List { get; private set; } = null!;

    public async Task OnGetAsync(CancellationToken ct) => List = await cameras.ListAsync(Typed, After, ct);
}
