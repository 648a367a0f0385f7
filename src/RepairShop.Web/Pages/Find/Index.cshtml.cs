using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Cameras;
using RepairShop.Services.Customers;
using RepairShop.Services.Database;
using RepairShop.Services.Repairs;

namespace RepairShop.Web.Pages.Find;

/// <summary>What "/" leads to: an exact number opens its sheet, anything else lists what comes near.</summary>
public sealed class IndexModel(RepairListService repairs, CustomerService customers, CameraService cameras) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "q")]
    public string? Typed { get; set; }

    public ListPage<RepairLine> Repairs { get; private set; } = new([], null, []);

    public IReadOnlyList<CustomerLine> Customers { get; private set; } = [];

    public IReadOnlyList<CameraLine> Cameras { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        if (string.IsNullOrWhiteSpace(Typed))
            return Page();
        if (await repairs.NumberAsync(Typed, ct) is { } number)
            return RedirectToPage("/Repairs/Sheet", new { number });
        Repairs = await repairs.ListAsync(new RepairFilter(Typed), ct);
        Customers = await customers.FindAsync(Typed, ct);
        Cameras = await cameras.FindAsync(Typed, ct);
        return Page();
    }
}
