using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Customers;

namespace RepairShop.Web.Pages.Customers;

public sealed class CustomerModel(CustomerService customers) : PageModel
{
    public CustomerView Customer { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct)
    {
        var found = await customers.GetAsync(id, ct);
        if (!found.IsDone)
            return NotFound();
        Customer = found.Value;
        return Page();
    }
}
