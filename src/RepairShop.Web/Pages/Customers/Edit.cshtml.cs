using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Customers;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Customers;

public sealed class EditModel(CustomerService customers) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    [BindProperty]
    public CustomerFields Input { get; set; } = new();

    [BindProperty]
    public uint Version { get; set; }

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        var found = await customers.GetAsync(Id, ct);
        if (!found.IsDone)
            return NotFound();
        (Input, Version) = (CustomerFields.Of(found.Value.Details), found.Value.Version);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var changed = await customers.ChangeAsync(Id, Version, Input.ToInput(), ct);
        return await this.Answer(changed, "The customer is changed.", () => RedirectToPage("Customer", new { Id }), () =>
            this.Renew(changed, nameof(Version), async () => Version = await VersionNow(ct)));
    }

    private async Task<uint> VersionNow(CancellationToken ct) => (await customers.GetAsync(Id, ct)).Value?.Version ?? Version;
}
