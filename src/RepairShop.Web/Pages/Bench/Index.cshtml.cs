using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Repairs;

namespace RepairShop.Web.Pages.Bench;

/// <summary>The start page: what is in the house and what it waits for.</summary>
public sealed class IndexModel(BenchService bench) : PageModel
{
    public BenchView Bench { get; private set; } = null!;

    public async Task OnGetAsync(CancellationToken ct) => Bench = await bench.GetAsync(ct);
}
