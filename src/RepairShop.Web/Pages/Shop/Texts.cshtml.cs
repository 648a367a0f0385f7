using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

public sealed class TextsModel(ShopService shop, MailTextService letters) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public IReadOnlyList<MailTextRow> Letters { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken ct)
    {
        var texts = await shop.Texts(ct);
        Input = new InputModel
        {
            Conditions = texts.Conditions,
            Estimate = texts.Estimate,
            ServiceRecord = texts.ServiceRecord,
            Invoice = texts.Invoice,
            Version = texts.Version,
        };
        Letters = await letters.List(ct);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => Load(ct));
        var texts = new ShopTexts(Input.Conditions ?? "", Input.Estimate ?? "", Input.ServiceRecord ?? "", Input.Invoice ?? "", Input.Version);
        return await this.Answer(await shop.SaveTexts(texts, ct), "The texts are saved.", () => RedirectToPage(), () => Load(ct));
    }

    private async Task Load(CancellationToken ct)
    {
        Input.Version = (await shop.Texts(ct)).Version;
        Letters = await letters.List(ct);
    }

    public sealed class InputModel
    {
        [StringLength(8000)]
        public string? Conditions { get; set; }

        [Display(Name = "Below the estimate"), StringLength(4000)]
        public string? Estimate { get; set; }

        [Display(Name = "Below the service record"), StringLength(4000)]
        public string? ServiceRecord { get; set; }

        [Display(Name = "Below the invoice"), StringLength(4000)]
        public string? Invoice { get; set; }

        public uint Version { get; set; }
    }
}
