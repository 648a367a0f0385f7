using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Services.Findings;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Findings;

public sealed class EditModel(WorkService work, FindingService findings) : PageModel
{
    [BindProperty]
    public FindingInput Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(number, id, ct))
            return NotFound();
        Input = FindingInput.Of(Shown.Finding.AsTyped);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string number, Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(number, id, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var saved = await findings.ChangeAsync(Shown.Repair.Id, id, Input.Typed(), ct);
        if (saved.Failure is ChangedMeanwhile)
        {
            // What is stored now was shown beside it: saving again is then a choice.
            ModelState.Remove("Input.Version");
            Input.Version = Shown.Finding.AsTyped.Version;
        }

        return await this.Answer(saved, "Finding saved.", () => RedirectToPage("/Findings/Index", new { number }));
    }

    private async Task<bool> LoadAsync(string number, Guid id, CancellationToken ct)
    {
        if (await work.FindAsync(number, ct) is not { } repair)
            return false;
        if ((await findings.ForRepairAsync(repair.Id, ct)).FirstOrDefault(finding => finding.Id == id) is not { } found)
            return false;
        Shown = new View(repair, found, await findings.WordsAsync(ct));
        return true;
    }

    public sealed record View(RepairHead Repair, FindingLine Finding, FindingWords Words);
}
