using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Worksheets;
using RepairShop.Services.Worksheets;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Worksheets;

/// <summary>What all worksheets do alike at their end.</summary>
internal static class SheetPages
{
    /// <summary>Keeps a result as a finding and goes to the findings; without a result the sheet is shown again with what is wrong.</summary>
    public static async Task<IActionResult> KeepAsync(
        this PageModel page, WorksheetService sheets, WorksheetRepair repair, WorksheetFinding? finding, Guid once, CancellationToken ct)
    {
        if (finding is null)
            return page.Page();
        var number = repair.Head.Number;
        var kept = await sheets.KeepAsync(repair.Head.Id, finding, once, ct);
        if (kept.IsDone)
            page.Tell("Kept as a finding. Change its words there if need be.", page.Url.Page("/Findings/Index", "Remove", new { number, id = kept.Value }));
        return await page.Answer(kept, null, _ => page.RedirectToPage("/Findings/Index", new { number }));
    }
}
