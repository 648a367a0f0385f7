using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Domain.Worksheets;
using RepairShop.Services.Worksheets;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Worksheets;

/// <summary>What all worksheets do alike: figures go in by the address, what they work out to is shown, and may be kept as a finding of the repair.</summary>
public abstract class SheetModel<TInput, TWorked>(WorksheetService sheets) : PageModel
    where TInput : class, new()
    where TWorked : class
{
    [BindProperty(SupportsGet = true)]
    public TInput Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct) =>
        await LoadAsync(number, ct) ? Page() : NotFound();

    /// <summary>Keeps the result as a finding and goes to the findings; without a result the sheet is shown again with what is wrong.</summary>
    public async Task<IActionResult> OnPostKeepAsync(string number, Guid once, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        if (Shown.Worked is not { } worked || FindingOf(worked) is not { } finding)
            return Page();
        var kept = await sheets.KeepAsync(Shown.Repair.Head.Id, finding, once, ct);
        if (kept.IsDone)
            this.Tell("Kept as a finding. Change its words there if need be.", Url.Page("/Findings/Index", "Remove", new { number, id = kept.Value }));
        return await this.Answer(kept, null, _ => RedirectToPage("/Findings/Index", new { number }));
    }

    protected abstract Result<TWorked> Work();

    /// <summary>What may be kept of it; null where there is nothing to keep.</summary>
    protected abstract WorksheetFinding? FindingOf(TWorked worked);

    /// <summary>Fills in what the sheet starts with, before it is worked out.</summary>
    protected virtual void Begin(WorksheetRepair repair) { }

    /// <summary>Adds the empty lines that are shown, after it was worked out.</summary>
    protected virtual void Complete() { }

    private async Task<bool> LoadAsync(string number, CancellationToken ct)
    {
        if (await sheets.OpenAsync(number, ct) is not { } repair)
            return false;
        Begin(repair);
        Shown = new View(repair, this.IsSent() ? this.WorkOut(Work) : null);
        Complete();
        return true;
    }

    public sealed record View(WorksheetRepair Repair, TWorked? Worked);
}
