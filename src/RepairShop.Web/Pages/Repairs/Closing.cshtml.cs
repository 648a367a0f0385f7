using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Repairs;

public sealed class ClosingModel(RepairService repairs) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    [BindProperty]
    public InputModel Input { get; set; } = new();

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        var found = await repairs.GetForEditAsync(Number, ct);
        if (!found.IsDone)
            return NotFound();
        var texts = found.Value.Texts;
        Input = new InputModel { Advice = texts.Advice, LeftAlone = texts.LeftAlone, PartsReturned = texts.PartsReturned, Version = found.Value.Version };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var texts = new ClosingTexts(Input.Advice ?? "", Input.LeftAlone ?? "", Input.PartsReturned ?? "");
        var changed = await repairs.ChangeTextsAsync(Number, Input.Version, texts, ct);
        return await this.Answer(changed, "The closing words are saved.", () => RedirectToPage("Sheet", new { Number }), () =>
            this.Renew(changed, "Input.Version", async () => Input.Version = (await repairs.GetForEditAsync(Number, ct)).Value?.Version ?? Input.Version));
    }

    public sealed class InputModel
    {
        [StringLength(4000), DataType(DataType.MultilineText)]
        public string? Advice { get; set; }

        [Display(Name = "Left alone, and why"), StringLength(4000), DataType(DataType.MultilineText)]
        public string? LeftAlone { get; set; }

        [Display(Name = "Parts given back"), StringLength(4000), DataType(DataType.MultilineText)]
        public string? PartsReturned { get; set; }

        public uint Version { get; set; }
    }
}
