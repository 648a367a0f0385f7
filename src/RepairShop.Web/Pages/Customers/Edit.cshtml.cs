using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Services.Customers;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Customers;

public sealed class EditModel(CustomerService customers, TaxProfileService profiles) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    [BindProperty]
    public CustomerFields Input { get; set; } = new();

    [BindProperty]
    public uint Version { get; set; }

    /// <summary>Empty where the shop has one way of taxing only.</summary>
    public IReadOnlyList<SelectListItem> Profiles { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        var found = await customers.GetAsync(Id, ct);
        if (!found.IsDone)
            return NotFound();
        (Input, Version) = (CustomerFields.Of(found.Value.Details), found.Value.Version);
        await LoadProfiles(ct);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        await LoadProfiles(ct);
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var changed = await customers.ChangeAsync(Id, Version, Input.ToInput(), ct);
        return await this.Answer(changed, "The customer is changed.", () => RedirectToPage("Customer", new { Id }), () =>
            this.Renew(changed, nameof(Version), async () => Version = await VersionNow(ct)));
    }

    private async Task LoadProfiles(CancellationToken ct)
    {
        var choices = await profiles.Choices(ct);
        if (choices.Count > 0)
            Profiles = [new SelectListItem("the shop’s usual way", ""), .. choices.Select(choice => new SelectListItem(choice.Name, choice.Id.ToString()))];
    }

    private async Task<uint> VersionNow(CancellationToken ct) => (await customers.GetAsync(Id, ct)).Value?.Version ?? Version;
}
