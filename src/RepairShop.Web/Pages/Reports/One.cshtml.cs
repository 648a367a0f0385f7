using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Reports;
using RepairShop.Services.Shop;

namespace RepairShop.Web.Pages.Reports;

/// <summary>One figure with all its rows, on the page or as a file.</summary>
public sealed class OneModel(FigureService figures, ShopFace face) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string? Of { get; set; }

    public Period Period { get; private set; } = new(2000, null);

    public Figure View { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string figure, CancellationToken cancel) =>
        await LoadAsync(figure, FigureService.OnPage, cancel) ? Page() : NotFound();

    public async Task<IActionResult> OnGetFileAsync(string figure, CancellationToken cancel) =>
        await LoadAsync(figure, int.MaxValue - 1, cancel)
            ? File(await FigureWriting.FileAsync(View, face.Currency), "text/csv; charset=utf-8", $"{View.Key}-{Period.Key}.csv")
            : NotFound();

    private async Task<bool> LoadAsync(string figure, int limit, CancellationToken cancel)
    {
        Period = Period.Read(Of) ?? new Period((await figures.TodayAsync(cancel)).Year, null);
        if (await figures.OneAsync(figure, Period, limit, cancel) is not { } view)
            return false;
        View = view;
        return true;
    }
}
