using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Parts;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Stock;

public sealed class AddModel(PartService parts) : PageModel
{
    [BindProperty]
    public PartInput Input { get; set; } = new();

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        return await this.Answer(
            await parts.AddAsync(Input.Typed(), ct), "Part added. Write down below how many are there.", id => RedirectToPage("/Stock/Part", new { id }));
    }
}
