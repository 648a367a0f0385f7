using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>The record backwards: each step with its shims and its orientation, ticked off as it goes back in.</summary>
public sealed class ReassemblyModel(WorkService work, StripDownService strip, StripItemService items, StripStepService steps) : PageModel
{
    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct) =>
        await LoadAsync(number, ct) ? Page() : NotFound();

    public Task<IActionResult> OnPostTickAsync(string number, Guid step, string? note, CancellationToken ct) => DoAsync(number, step, line => line.BacksOffOnly
        ? steps.TightenAsync(Shown.Strip.Repair.Id, step, true, ct)
        : items.RefitStepAsync(Shown.Strip.Repair.Id, step, note ?? "", ct), ct);

    public Task<IActionResult> OnPostNotYetAsync(string number, Guid step, CancellationToken ct) => DoAsync(number, step, line => line.BacksOffOnly
        ? steps.TightenAsync(Shown.Strip.Repair.Id, step, false, ct)
        : items.TakeOutAgainAsync(Shown.Strip.Repair.Id, step, ct), ct);

    private async Task<IActionResult> DoAsync(string number, Guid id, Func<StepLine, Task<Result>> work, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct) || Shown.Strip.Record.Kept.FirstOrDefault(step => step.Id == id) is not { } line)
            return NotFound();
        // The page comes back at the step that is next by then: the one under the hand.
        var next = Shown.Strip.Record.Kept.Reverse().FirstOrDefault(step => step.Id != id && !step.IsDone)?.Id ?? id;
        return await this.Answer(await work(line), null, () => RedirectToPage(null, null, new { number }, $"s{(line.IsDone ? id : next)}"), () => LoadAsync(number, ct));
    }

    private async Task<bool> LoadAsync(string number, CancellationToken ct)
    {
        if (await StripView.LoadAsync(work, strip, number, ct) is not { } view)
            return false;
        Shown = new View(view, await work.IsDeclinedAsync(view.Repair.Id, ct));
        return true;
    }

    public sealed record View(StripView Strip, bool Declined);
}
