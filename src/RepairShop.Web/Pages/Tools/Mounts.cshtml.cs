using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Shop;
using RepairShop.Services.Tools;

namespace RepairShop.Web.Pages.Tools;

public sealed class MountsModel(MountService mounts) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "q")]
    public string? Text { get; set; }

    public bool Retired { get; private set; }

    public Register<MountLine> Mounts { get; private set; } = null!;

    public async Task OnGetAsync(string? show, int? at, CancellationToken ct)
    {
        Text = TypedText.Cut(Text ?? "", 200);
        Retired = show == "retired";
        Mounts = await mounts.ListAsync(new RegisterQuestion(Text, Retired, at ?? 1), ct);
    }
}
