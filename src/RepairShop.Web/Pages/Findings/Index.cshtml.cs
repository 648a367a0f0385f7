using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Findings;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Findings;

public sealed class IndexModel(WorkService work, FindingService findings) : PageModel
{
    [BindProperty]
    public FindingInput Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct) =>
        await LoadAsync(number, ct) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(string number, bool photo, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var added = await findings.AddAsync(Shown.Repair.Id, Input.Typed(), Input.Once, ct);
        return await this.Answer(added, "Finding added.", id => photo
            ? LocalRedirect($"~/repairs/{Uri.EscapeDataString(number)}/photos?finding={id}")
            : RedirectToPage(new { number }));
    }

    public async Task<IActionResult> OnPostRemoveAsync(string number, Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        ModelState.Clear();
        var removed = await findings.RemoveAsync(Shown.Repair.Id, id, ct);
        if (removed.IsDone)
            this.Tell("Finding removed.", Url.Page("/Findings/Index", "BringBack", new { number, id }));
        return await this.Answer(removed, null, () => RedirectToPage(new { number }));
    }

    public async Task<IActionResult> OnPostBringBackAsync(string number, Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        ModelState.Clear();
        return await this.Answer(
            await findings.BringBackAsync(Shown.Repair.Id, id, ct), "Finding is back where it was.", () => RedirectToPage(new { number }));
    }

    private async Task<bool> LoadAsync(string number, CancellationToken ct)
    {
        if (await work.FindAsync(number, ct) is not { } repair)
            return false;
        Shown = new View(repair, await findings.ForRepairAsync(repair.Id, ct), await findings.WordsAsync(ct));
        return true;
    }

    public sealed record View(RepairHead Repair, IReadOnlyList<FindingLine> Findings, FindingWords Words);
}
