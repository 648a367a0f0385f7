using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Repairs;

public sealed class PassModel(LeavingService leaving) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    [BindProperty(SupportsGet = true)]
    public StillMissing Item { get; set; }

    [BindProperty]
    public InputModel Input { get; set; } = new();

    public void OnGet() => ModelState.Clear();

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var passed = await leaving.PassAsync(Number, Item, Input.Reason, ct);
        return await this.Answer(passed, $"{MissingWords.Of(Item)}: let pass.", () => RedirectToPage("Sheet", new { Number, Item = (string?)null }));
    }

    public sealed class InputModel
    {
        [StringLength(1000), DataType(DataType.MultilineText)]
        public string Reason { get; set; } = "";
    }
}
