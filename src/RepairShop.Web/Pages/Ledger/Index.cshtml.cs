using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Ledger;
using RepairShop.Services.Shop;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Ledger;

/// <summary>One month of the ledger: balances, files for the accountant, closing.</summary>
public sealed class IndexModel(LedgerService ledger, JournalFileService files, ShopFace face) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string? Month { get; set; }

    [BindProperty(SupportsGet = true)]
    public int? Year { get; set; }

    public LedgerMonth View { get; private set; } = new(default, [], false, null, null);

    public DateOnly ThisMonth { get; private set; }

    public Task OnGetAsync(CancellationToken cancel) => LoadAsync(cancel);

    public async Task<IActionResult> OnGetFileAsync(CancellationToken cancel)
    {
        var year = Year is >= 1900 and < 9000 ? Year : null;
        var from = year is { } whole ? new DateOnly(whole, 1, 1) : MonthText.Read(Month) ?? await ledger.ThisMonthAsync(cancel);
        var until = year is null ? from.AddMonths(1) : from.AddYears(1);
        return File(await files.WriteAsync(from, until, cancel), "text/csv; charset=utf-8", $"ledger-{(year is { } all ? $"{all}" : MonthText.Of(from))}.csv");
    }

    public async Task<IActionResult> OnPostCloseAsync(bool sure, CancellationToken cancel)
    {
        if (MonthText.Read(Month) is not { } month)
            return NotFound();
        if (!sure)
        {
            ModelState.AddModelError("", "The month is not closed: tick that it may be, then close it.");
            return await this.ShowAgain(() => LoadAsync(cancel));
        }
        return await this.Answer(
            await ledger.CloseAsync(month, cancel), $"{MonthText.Name(month, face.Culture)} is closed.", () => RedirectToPage(new { Month }), () => LoadAsync(cancel));
    }

    private async Task LoadAsync(CancellationToken cancel)
    {
        ThisMonth = await ledger.ThisMonthAsync(cancel);
        View = await ledger.MonthAsync(MonthText.Read(Month) ?? ThisMonth, cancel);
    }
}
