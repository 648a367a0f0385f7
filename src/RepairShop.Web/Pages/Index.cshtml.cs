using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace RepairShop.Web.Pages;

/// <summary>The front door leads to the bench.</summary>
public sealed class IndexModel : PageModel
{
    public IActionResult OnGet() => LocalRedirect("/bench");
}
