using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Reports;

namespace RepairShop.Web.Pages.Reports;

/// <summary>The owner's figures of a year or a month.</summary>
public sealed class IndexModel(FigureService figures) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string? Of { get; set; }

    public Period Period { get; private set; } = new(2000, null);

    public DateOnly Today { get; private set; }

    public IReadOnlyList<Figure> Figures { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken cancel)
    {
        Today = await figures.TodayAsync(cancel);
        Period = Period.Read(Of) ?? new Period(Today.Year, null);
        Figures = await figures.OverviewAsync(Period, cancel);
    }
}
