using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Repairs;

/// <summary>A repair as one sheet. Its sections are view components of the rooms that own them.</summary>
public sealed class SheetModel(SheetService sheets, RepairService repairs) : PageModel
{
    private const string BenchView = "bench-view";

    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    public RepairSheet Sheet { get; private set; } = null!;

    /// <summary>For oily fingers: dark, few and large targets. Kept per device until switched off.</summary>
    public bool IsBenchView { get; private set; }

    public async Task<IActionResult> OnGetAsync(string? view, CancellationToken ct)
    {
        if (view is "bench" or "desk")
            Response.Cookies.Append(BenchView, view, new CookieOptions
            {
                HttpOnly = true,
                IsEssential = true,
                MaxAge = TimeSpan.FromDays(365),
                SameSite = SameSiteMode.Lax,
                Secure = Request.IsHttps,
            });
        IsBenchView = (view ?? Request.Cookies[BenchView]) == "bench";
        var found = await sheets.GetAsync(Number, ct);
        if (!found.IsDone)
            return NotFound();
        Sheet = found.Value;
        return Page();
    }

    public async Task<IActionResult> OnPostBenchAsync(CancellationToken ct) => await this.Answer(
        await repairs.ToTheBenchAsync(Number, ct), "It is on the bench.", () => RedirectToPage(), async () =>
        {
            if (await sheets.GetAsync(Number, ct) is { IsDone: true } found)
                Sheet = found.Value;
        });
}
