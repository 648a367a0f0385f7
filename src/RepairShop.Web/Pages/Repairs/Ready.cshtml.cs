using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Repairs;

public sealed class ReadyModel(SheetService sheets, LeavingService leaving) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    public RepairSheet Sheet { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        await Load(ct);
        return Sheet is null ? NotFound() : Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct) => await this.Answer(
        await leaving.ReadyAsync(Number, ct), $"Repair {Number} is ready to go home.", () => RedirectToPage("Sheet", new { Number }), () => Load(ct));

    public async Task<IActionResult> OnPostNotAsync(CancellationToken ct) => await this.Answer(
        await leaving.NotReadyAsync(Number, ct), $"Repair {Number} is back in work.", () => RedirectToPage("Sheet", new { Number }), () => Load(ct));

    private async Task Load(CancellationToken ct) => Sheet = (await sheets.GetAsync(Number, ct)).Value!;
}
