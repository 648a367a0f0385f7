using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Shop;
using RepairShop.Services.Parts;

namespace RepairShop.Web.Pages.Stock;

public sealed class IndexModel(PartService parts) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "q")]
    public string? Text { get; set; }

    /// <summary>all, reorder or retired.</summary>
    [BindProperty(SupportsGet = true, Name = "show")]
    public string? Which { get; set; }

    public StockList Stock { get; private set; } = null!;

    public async Task OnGetAsync(int? at, CancellationToken ct)
    {
        Text = TypedText.Cut(Text ?? "", 200);
        Stock = await parts.ListAsync(new StockQuestion(Text, Which == "reorder", Which == "retired", at ?? 1), ct);
    }
}
