using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Cameras;
using RepairShop.Services.Customers;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Cameras;

/// <summary>One camera: what it is, whose it is, and every visit it made.</summary>
public sealed class CameraModel(CameraService cameras, CustomerService customers) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    /// <summary>Looking for the new owner.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Owner { get; set; }

    public CameraView Camera { get; private set; } = null!;

    public IReadOnlyList<CustomerLine> Found { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        var found = await cameras.GetAsync(Id, ct);
        if (!found.IsDone)
            return NotFound();
        Camera = found.Value;
        Found = await customers.FindAsync(Owner, ct);
        return Page();
    }

    public async Task<IActionResult> OnPostOwnerAsync(Guid ownerId, CancellationToken ct)
    {
        var changed = await cameras.ChangeOwnerAsync(Id, ownerId, ct);
        return await this.Answer(changed, "The camera has a new owner.", () => RedirectToPage(new { Id, Owner = (string?)null }));
    }
}
