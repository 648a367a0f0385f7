using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Notebook;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

public sealed class NewModel(NotebookService pages) : PageModel
{
    [BindProperty]
    public ModelInput Input { get; set; } = new();

    /// <summary>From a repair's sheet, whose camera has no page yet.</summary>
    public void OnGet(string? maker, string? model, string? speeds) => (Input.Maker, Input.Model, Input.MarkedSpeeds) = (maker, model, speeds);

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        return await this.Answer(
            await pages.StartAsync(Input.Typed(), Input.Once, ct), "The page is started. Add below what you know.", id => RedirectToPage("Model", new { id }));
    }
}
