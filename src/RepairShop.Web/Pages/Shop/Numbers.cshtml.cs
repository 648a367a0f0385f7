using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Shop;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

public sealed class NumbersModel(ShopService shop, ShopFace face) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    /// <summary>"Like 2026-0042" for a format that can be used.</summary>
    public string? Sample(string? format) =>
        format is not null && NumberFormat.IsValid(format) ? $"Like {NumberFormat.Write(format, face.Today.Year, 42)}" : null;

    public async Task OnGetAsync(CancellationToken ct)
    {
        var numbers = await shop.Numbers(ct);
        Input = new InputModel
        {
            Repair = numbers.Repair,
            Invoice = numbers.Invoice,
            CreditNote = numbers.CreditNote,
            Part = numbers.Part,
            Version = numbers.Version,
        };
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var numbers = new ShopNumbers(Input.Repair, Input.Invoice, Input.CreditNote, Input.Part, Input.Version);
        return await this.Answer(await shop.SaveNumbers(numbers, ct), "The number formats are saved.", () => RedirectToPage(), async () =>
            Input.Version = (await shop.Numbers(ct)).Version);
    }

    public sealed class InputModel
    {
        [Display(Name = "Repairs"), StringLength(40)]
        public string Repair { get; set; } = "";

        [Display(Name = "Invoices"), StringLength(40)]
        public string Invoice { get; set; } = "";

        [Display(Name = "Credit notes"), StringLength(40)]
        public string CreditNote { get; set; } = "";

        [Display(Name = "Parts"), StringLength(40)]
        public string Part { get; set; } = "";

        public uint Version { get; set; }
    }
}
