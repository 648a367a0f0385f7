using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Tools;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Tools;

public sealed class AddMountModel(MountService mounts) : PageModel
{
    [BindProperty]
    public MountInput Input { get; set; } = new();

    public IReadOnlyList<string> Cameras { get; private set; } = [];

    public Task OnGetAsync(CancellationToken ct) => LoadAsync(ct);

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        await LoadAsync(ct);
        return ModelState.IsValid
            ? await this.Answer(await mounts.AddAsync(Input.Typed(), ct), "Mount added.", _ => RedirectToPage("/Tools/Mounts"))
            : await this.ShowAgain();
    }

    private async Task LoadAsync(CancellationToken ct) => Cameras = await mounts.CamerasAsync(ct);
}
