using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Customers;
using RepairShop.Services.Customers;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Customers;

public sealed class NewModel(CustomerService customers) : PageModel
{
    [BindProperty]
    public CustomerFields Input { get; set; } = new();

    [BindProperty]
    public bool SomebodyElse { get; set; }

    public IReadOnlyList<KnownCustomer> Known { get; private set; } = [];

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var added = await customers.AddAsync(Input.ToInput(), SomebodyElse, ct);
        Known = (added.Failure as CustomerMayBeKnown)?.Known ?? [];
        return await this.Answer(added, "The customer is in the book.", id => RedirectToPage("Customer", new { id }));
    }
}
