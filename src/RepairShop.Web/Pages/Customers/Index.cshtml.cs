using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Customers;
using RepairShop.Services.Database;

namespace RepairShop.Web.Pages.Customers;

public sealed class IndexModel(CustomerService customers) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "q")]
    public string? Typed { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? After { get; set; }

    public ListPage<CustomerLine> List { get; private set; } = null!;

    public async Task OnGetAsync(CancellationToken ct) => List = await customers.ListAsync(Typed, After, ct);
}
