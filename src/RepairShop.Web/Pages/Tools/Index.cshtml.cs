using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Shop;
using RepairShop.Services.Tools;

namespace RepairShop.Web.Pages.Tools;

public sealed class IndexModel(ToolService tools) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "q")]
    public string? Text { get; set; }

    public bool Retired { get; private set; }

    public Register<ToolLine> Tools { get; private set; } = null!;

    public async Task OnGetAsync(string? show, int? at, CancellationToken ct)
    {
        Text = TypedText.Cut(Text ?? "", 200);
        Retired = show == "retired";
        Tools = await tools.ListAsync(new RegisterQuestion(Text, Retired, at ?? 1), ct);
    }
}
