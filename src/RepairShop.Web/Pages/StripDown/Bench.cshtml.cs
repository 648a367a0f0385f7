using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Labour;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>
/// Taking apart with one free hand: Enter adds the step, the next cell is there already. A device that was cut off sends its
/// entries later, each under its own id; it is answered with the fresh list instead of a whole page.
/// </summary>
public sealed class BenchModel(
    WorkService work, StripDownService strip, StripStepService steps, TrayService trays, PhotoService photos, LabourService labour) : PageModel
{
    [BindProperty]
    public StepInput Input { get; set; } = new();

    [BindProperty]
    public TrayInput Tray { get; set; } = new();

    public View Shown { get; private set; } = null!;

    private bool IsFetch => Request.Headers.XRequestedWith == "fetch";

    public async Task<IActionResult> OnGetAsync(string number, Guid? after, CancellationToken ct)
    {
        if (!await LoadAsync(number, after, ct))
            return NotFound();
        Input = StepInput.Next(Shown.Strip.Record.Next, Shown.After?.Id);
        ModelState.Clear();
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string number, List<IFormFile> files, CancellationToken ct)
    {
        this.OnlyCheck(nameof(Input));
        if (!await LoadAsync(number, Input.After, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await AgainAsync();
        var added = await steps.AddAsync(Shown.Strip.Repair.Id, Input.Typed(), Input.Entry(), ct);
        if (!added.IsDone)
            return this.Note(added.Failure) ?? await AgainAsync();
        return await AddedAsync(number, added.Value, await PhotosAsync(number, added.Value, files, ct), ct);
    }

    public async Task<IActionResult> OnPostTrayAsync(string number, CancellationToken ct)
    {
        this.OnlyCheck(nameof(Tray));
        if (!await LoadAsync(number, null, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var added = await trays.AddAsync(Shown.Strip.Repair.Id, Tray.Typed(), Tray.Once, ct);
        return await this.Answer(added, null, _ => RedirectToPage(new { number }));
    }

    /// <param name="number">Of the repair.</param>
    /// <param name="step">The step that was added.</param>
    /// <param name="unseen">What could not be taken in with it.</param>
    /// <param name="ct"></param>
    private async Task<IActionResult> AddedAsync(string number, Guid step, string unseen, CancellationToken ct)
    {
        if (IsFetch)
        {
            await LoadAsync(number, null, ct);
            Response.Headers["X-Told"] = Uri.EscapeDataString(unseen);
            return Partial("_Recent", Shown.Strip);
        }

        if (unseen.Length > 0)
            this.Tell($"The step is kept, without its photo: {unseen}");
        return RedirectToPage(new { number, after = Input.After is null ? null : (Guid?)step });
    }

    /// <returns>What could not be taken in, in sentences; empty when everything was.</returns>
    private async Task<string> PhotosAsync(string number, Guid stepId, List<IFormFile> files, CancellationToken ct)
    {
        var uploads = await Uploads.ReadAsync(files, ct);
        if (uploads.Count == 0)
            return "";
        var kept = await photos.AddAsync(number, uploads, ct, stepId: stepId);
        return string.Join(' ', kept.Value?.Refused.Select(refused => refused.Message) ?? [kept.Failure!.Message]);
    }

    /// <summary>The form with its errors; for a device's queue the sentences alone.</summary>
    private async Task<IActionResult> AgainAsync() => IsFetch
        ? new ContentResult
        {
            StatusCode = StatusCodes.Status422UnprocessableEntity,
            ContentType = "text/plain; charset=utf-8",
            Content = string.Join('\n', ModelState.Values.SelectMany(entry => entry.Errors).Select(error => error.ErrorMessage)),
        }
        : await this.ShowAgain();

    private async Task<bool> LoadAsync(string number, Guid? after, CancellationToken ct)
    {
        if (await StripView.LoadAsync(work, strip, number, ct) is not { } view)
            return false;
        Shown = new View(
            view, await labour.ForRepairAsync(view.Repair.Id, ct, withActivities: false), await strip.WordsAsync(ct),
            after is null ? null : view.Record.Steps.FirstOrDefault(step => step.Id == after));
        return true;
    }

    public sealed record View(StripView Strip, HoursView Hours, IReadOnlyList<string> Words, StepLine? After)
    {
        public bool RunsHere => Hours.Mine?.RepairId == Strip.Repair.Id;
    }
}
