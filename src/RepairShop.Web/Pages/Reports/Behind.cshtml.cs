using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Reports;
using RepairShop.Services.Shop;

namespace RepairShop.Web.Pages.Reports;

/// <summary>The papers, repairs or parts behind one row of a figure.</summary>
public sealed class BehindModel(FigureService figures, ShopFace face) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string? Of { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Row { get; set; }

    public Period Period { get; private set; } = new(2000, null);

    public Figure View { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string figure, CancellationToken cancel) =>
        await LoadAsync(figure, FigureService.OnPage, cancel) ? Page() : NotFound();

    public async Task<IActionResult> OnGetFileAsync(string figure, CancellationToken cancel) =>
        await LoadAsync(figure, int.MaxValue - 1, cancel)
            ? File(await FigureWriting.FileAsync(View, face.Currency), "text/csv; charset=utf-8", $"{View.Key}-{Period.Key}-behind.csv")
            : NotFound();

    private async Task<bool> LoadAsync(string figure, int limit, CancellationToken cancel)
    {
        Period = Period.Read(Of) ?? new Period((await figures.TodayAsync(cancel)).Year, null);
        if (await figures.BehindAsync(figure, Period, (Row ?? "").Replace("\0", "", StringComparison.Ordinal), limit, cancel) is not { } view)
            return false;
        View = view;
        return true;
    }
}
