using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Repairs;
using RepairShop.Domain.Shop;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Repairs;

public sealed class ReturnModel(SheetService sheets, LeavingService leaving) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    [BindProperty]
    public InputModel Input { get; set; } = new();

    public RepairSheet Sheet { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        await Load(ct);
        if (Sheet is null)
            return NotFound();
        Input.ReturnedTo = TypedText.Cut(Sheet.Customer.Name, InputModel.LongestName).TrimEnd();
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => Load(ct));
        var returned = Input.How == ReturnWay.Collected
            ? await leaving.CollectAsync(Number, new HandedOver(Input.ReturnedTo, Input.TagSeen, Input.KnownBy ?? ""), ct)
            : await leaving.PostAsync(Number, new Posting(Input.ReturnedTo, Input.Carrier ?? "", Input.Tracking ?? ""), ct);
        return await this.Answer(returned, $"Repair {Number} has gone home.", () => RedirectToPage("Sheet", new { Number }), () => Load(ct));
    }

    private async Task Load(CancellationToken ct) => Sheet = (await sheets.GetAsync(Number, ct)).Value!;

    public sealed class InputModel
    {
        [Display(Name = "How it goes home")]
        public ReturnWay How { get; set; }

        /// <summary>The note on a missing tag is kept in the same words.</summary>
        public const int LongestName = 90;

        [Display(Name = "To whom"), StringLength(LongestName)]
        public string ReturnedTo { get; set; } = "";

        [Display(Name = "The claim tag was shown")]
        public bool TagSeen { get; set; }

        [Display(Name = "Without a tag: how do you know them"), StringLength(90)]
        public string? KnownBy { get; set; }

        [StringLength(120)]
        public string? Carrier { get; set; }

        [Display(Name = "Tracking number"), StringLength(120)]
        public string? Tracking { get; set; }
    }
}
