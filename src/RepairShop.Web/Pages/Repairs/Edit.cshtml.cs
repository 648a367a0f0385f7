using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Repairs;

public sealed class EditModel(RepairService repairs) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    [BindProperty]
    public RepairFields Input { get; set; } = new();

    [BindProperty]
    public uint Version { get; set; }

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        var found = await repairs.GetForEditAsync(Number, ct);
        if (!found.IsDone)
            return NotFound();
        (Input, Version) = (RepairFields.Of(found.Value.Facts), found.Value.Version);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var changed = await repairs.ChangeFactsAsync(Number, Version, Input.ToInput(), ct);
        return await this.Answer(changed, "The booking is changed.", () => RedirectToPage("Sheet", new { Number }), () =>
            this.Renew(changed, nameof(Version), async () => Version = (await repairs.GetForEditAsync(Number, ct)).Value?.Version ?? Version));
    }
}
