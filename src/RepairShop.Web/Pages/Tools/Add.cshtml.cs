using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Tools;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Tools;

public sealed class AddModel(ToolService tools) : PageModel
{
    [BindProperty]
    public ToolInput Input { get; set; } = new();

    public async Task<IActionResult> OnPostAsync(CancellationToken ct) => ModelState.IsValid
        ? await this.Answer(await tools.AddAsync(Input.Typed(), ct), "Tool added.", _ => RedirectToPage("/Tools/Index"))
        : await this.ShowAgain();
}
