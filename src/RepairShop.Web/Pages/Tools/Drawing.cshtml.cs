using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Measurement.Tools;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Tools;

public sealed class DrawingModel : PageModel
{
    [BindProperty(SupportsGet = true)]
    public FitInput Input { get; set; } = new();

    public RingSpannerFit? Fit { get; private set; }

    public IActionResult OnGet()
    {
        if (!this.IsSent())
            return RedirectToPage("/Tools/Fit");
        Fit = this.WorkOut(Input.Work);
        return Page();
    }
}
