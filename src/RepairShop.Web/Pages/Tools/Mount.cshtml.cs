using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Tools;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Tools;

public sealed class MountModel(MountService mounts) : PageModel
{
    [BindProperty]
    public MountInput Input { get; set; } = new();

    public MountView Mount { get; private set; } = null!;

    public IReadOnlyList<string> Cameras { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        Input = MountInput.Of(Mount.Typed);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var saved = await mounts.ChangeAsync(id, Input.Typed(), ct);
        await this.Renew(saved, "Input.Version", () => Task.FromResult(Input.Version = Mount.Typed.Version));
        return await this.Answer(saved, "Mount saved.", () => RedirectToPage(new { id }));
    }

    public async Task<IActionResult> OnPostRetireAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        ModelState.Clear();
        var retired = await mounts.RetireAsync(id, ct);
        if (retired.IsDone)
            this.Tell("Mount retired.", Url.Page("/Tools/Mount", "BringBack", new { id }));
        return await this.Answer(retired, null, () => RedirectToPage("/Tools/Mounts"));
    }

    public async Task<IActionResult> OnPostBringBackAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        ModelState.Clear();
        return await this.Answer(await mounts.BringBackAsync(id, ct), "Mount is in use again.", () => RedirectToPage(new { id }));
    }

    private async Task<bool> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await mounts.GetAsync(id, ct);
        if (!found.IsDone)
            return false;
        (Mount, Cameras) = (found.Value, await mounts.CamerasAsync(ct));
        return true;
    }
}
