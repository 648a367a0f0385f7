using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages;

/// <summary>Every part of the look on one sheet, for those who write pages; in Development only.</summary>
public sealed class StyleModel(IWebHostEnvironment environment) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public IActionResult OnGet() => environment.IsDevelopment() ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync() => environment.IsDevelopment() ? await this.ShowAgain() : NotFound();

    public sealed class InputModel
    {
        [Display(Name = "A text"), StringLength(40)]
        public string Text { get; set; } = "";

        [Display(Name = "An amount")]
        public decimal Amount { get; set; } = 12.5m;

        [Display(Name = "A date")]
        public DateOnly? On { get; set; }

        [Display(Name = "A choice to tick")]
        public bool Ticked { get; set; }

        public LabourRounding Rounding { get; set; }

        [Display(Name = "A note"), StringLength(2000)]
        public string? Note { get; set; }
    }
}
