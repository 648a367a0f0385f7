using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Cameras;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Cameras;

public sealed class EditModel(CameraService cameras) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    [BindProperty]
    public CameraFields Input { get; set; } = new();

    [BindProperty]
    public uint Version { get; set; }

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        var found = await cameras.GetAsync(Id, ct);
        if (!found.IsDone)
            return NotFound();
        (Input, Version) = (CameraFields.Of(found.Value.Details), found.Value.Version);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var changed = await cameras.ChangeAsync(Id, Version, Input.ToInput(), ct);
        return await this.Answer(changed, "The camera is changed.", () => RedirectToPage("Camera", new { Id }), () =>
            this.Renew(changed, nameof(Version), async () => Version = (await cameras.GetAsync(Id, ct)).Value?.Version ?? Version));
    }
}
