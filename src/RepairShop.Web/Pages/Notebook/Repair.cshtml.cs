using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Notebook;
using RepairShop.Services.Notebook;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>A repair beside its model's guide: what is off, what is still to come off, what differs this time. Nothing is ticked
/// that the strip-down record does not say.</summary>
public sealed class RepairModel(WorkService work, GuideService guides, NotebookService pages) : PageModel
{
    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct) => await LoadAsync(number, ct) ? Page() : NotFound();

    /// <param name="number"></param>
    /// <param name="version">Of the guide the button stood in.</param>
    /// <param name="place">Of the step, from 0.</param>
    /// <param name="once">Made with the button, so that pressing twice writes one step.</param>
    /// <param name="ct"></param>
    public async Task<IActionResult> OnPostOffAsync(string number, int version, int place, Guid once, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        var taken = await guides.TakeStepAsync(Shown.Repair.Id, version, place, once, ct);
        return await this.Answer(taken, "Written in the strip-down record.", _ => RedirectToPage(new { number }));
    }

    public async Task<IActionResult> OnPostSaveAsync(string number, string? note, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        var text = note is { Length: > NotebookRules.TextLength } ? note[..NotebookRules.TextLength] : note;
        var saved = await guides.SaveFromRepairAsync(number, text ?? "", ct);
        return await this.Answer(saved, $"It is version {saved.Value.Number} of the model's guide.", done => RedirectToPage("Guide", new { id = done.PageId }));
    }

    private async Task<bool> LoadAsync(string number, CancellationToken ct)
    {
        if (await work.FindAsync(number, ct) is not { } repair)
            return false;
        var link = await pages.OfRepairAsync(repair.Id, ct);
        var guide = link?.PageId is { } page ? (await guides.NewestAsync(page, ct)).Value : null;
        var now = await guides.StepsOfRepairAsync(repair.Id, ct);
        Shown = new View(repair, link, guide, now, guide is null ? [] : GuideDifferences.Between(guide.Steps, now));
        return true;
    }

    public sealed record View(
        RepairHead Repair, NotebookLink? Link, GuideView? Guide, IReadOnlyList<GuideStep> Now, IReadOnlyList<StepPair> Lines)
    {
        /// <summary>Steps of the guide that the record has.</summary>
        public int Done => Lines.Count(line => line is { Guide: not null, Now: not null });
    }
}
