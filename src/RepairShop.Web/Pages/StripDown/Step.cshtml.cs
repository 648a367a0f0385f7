using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>One step put right: corrected, moved, split, struck out, each with its way back.</summary>
public sealed class StepModel(WorkService work, StripDownService strip, StripStepService steps, PhotoService photos) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    [BindProperty]
    public StepInput Input { get; set; } = new();

    [BindProperty]
    public SplitInput Split { get; set; } = new();

    [BindProperty]
    public StrikeInput Strike { get; set; } = new();

    public View Shown { get; private set; } = null!;

    private Guid RepairId => Shown.Strip.Repair.Id;

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        if (!await LoadAsync(ct))
            return NotFound();
        ModelState.Clear();
        Input = StepInput.Of(Shown.Step);
        return Page();
    }

    public Task<IActionResult> OnPostAsync(CancellationToken ct) => DoAsync(nameof(Input), async () =>
    {
        var saved = await steps.CorrectAsync(RepairId, Id, Input.Typed(), Input.Version, ct);
        if (saved.Failure is ChangedMeanwhile)
        {
            // What is stored now was shown beside it: saving again is then a choice.
            ModelState.Remove("Input.Version");
            Input.Version = Shown.Step.Version;
        }

        return await this.Answer(saved, "The step is corrected.", Back);
    }, ct);

    public Task<IActionResult> OnPostUndoAsync(CancellationToken ct) => DoAsync("", async () => await this.Answer(
        await steps.UndoCorrectionAsync(RepairId, Id, ct), "The correction is taken back; undo once more to have it again.", Back), ct);

    public Task<IActionResult> OnPostMoveAsync(Guid? after, CancellationToken ct) => DoAsync("", async () =>
    {
        var before = Shown.Strip.Record.Kept.TakeWhile(step => step.Id != Id).LastOrDefault()?.Id;
        var moved = await steps.MoveAsync(RepairId, Id, after, ct);
        if (moved.IsDone)
            this.Tell("The step is moved.", Url.Page("Step", "Move", new { Number, Id, after = before }));
        return await this.Answer(moved, null, Back);
    }, ct);

    public Task<IActionResult> OnPostSplitAsync(CancellationToken ct) => DoAsync(nameof(Split), async () =>
    {
        var split = await steps.SplitAsync(RepairId, Id, Split.SplitCount, Split.What, ct);
        if (split.IsDone)
            this.Tell("They have a step of their own now.", Url.Page("Step", "Join", new { Number, id = split.Value }));
        return await NoteSplitAsync(split);
    }, ct);

    public Task<IActionResult> OnPostJoinAsync(CancellationToken ct) => DoAsync("", async () => await this.Answer(
        await steps.JoinAsync(RepairId, Id, ct), "The two are one step again.", () => RedirectToPage("Index", new { Number })), ct);

    public Task<IActionResult> OnPostStrikeOutAsync(CancellationToken ct) => DoAsync(nameof(Strike), async () =>
    {
        var struck = await steps.StrikeOutAsync(RepairId, Id, Strike.Reason, ct);
        if (struck.IsDone)
            this.Tell("The step is struck out.", Url.Page("Step", "BringBack", new { Number, Id }));
        if (struck.Failure is Invalid invalid)
            ModelState.AddModelError("Strike.Reason", invalid.Message);
        return struck.Failure is Invalid ? await this.ShowAgain() : await this.Answer(struck, null, () => RedirectToPage("Index", new { Number }));
    }, ct);

    public Task<IActionResult> OnPostBringBackAsync(CancellationToken ct) => DoAsync("", async () => await this.Answer(
        await steps.BringBackAsync(RepairId, Id, ct), "The step counts again.", Back), ct);

    public Task<IActionResult> OnPostPhotosAsync(List<IFormFile> files, CancellationToken ct) => DoAsync("", async () =>
    {
        var uploads = await Uploads.ReadAsync(files, ct);
        if (uploads.Count == 0)
            return this.Note(new Domain.Repairs.NoPhotoChosen()) ?? await this.ShowAgain();
        var added = await photos.AddAsync(Number, uploads, ct, stepId: Id);
        foreach (var refused in added.Value?.Refused ?? [])
            ModelState.AddModelError("Photos", refused.Message);
        return ModelState.IsValid ? await this.Answer(added, "Photos added.", _ => Back()) : await this.ShowAgain(() => LoadAsync(ct));
    }, ct);

    public Task<IActionResult> OnPostTakeOffAsync(Guid photo, CancellationToken ct) => DoAsync("", async () =>
    {
        var taken = await photos.TakeOffAsync(Number, photo, ct);
        if (taken.IsDone)
            this.Tell("The photo is taken off.", Url.Page("Step", "PutBack", new { Number, Id, photo }));
        return await this.Answer(taken, null, Back);
    }, ct);

    public Task<IActionResult> OnPostPutBackAsync(Guid photo, CancellationToken ct) => DoAsync("", async () => await this.Answer(
        await photos.PutBackAsync(Number, photo, ct), "The photo is back.", Back), ct);

    /// <summary>A split's own fields carry its refusals, not those of the correction above it.</summary>
    private async Task<IActionResult> NoteSplitAsync(Result<Guid> split)
    {
        if (split.Failure is not Invalid invalid)
            return await this.Answer(split, null, _ => RedirectToPage("Index", new { Number }));
        ModelState.AddModelError($"Split.{invalid.Field}", invalid.Message);
        return await this.ShowAgain();
    }

    private async Task<IActionResult> DoAsync(string form, Func<Task<IActionResult>> work, CancellationToken ct)
    {
        if (!await LoadAsync(ct))
            return NotFound();
        this.OnlyCheck(form);
        if (form != nameof(Input))
            Input = StepInput.Of(Shown.Step);
        return ModelState.IsValid ? await work() : await this.ShowAgain();
    }

    private RedirectToPageResult Back() => RedirectToPage("Step", new { Number, Id });

    private async Task<bool> LoadAsync(CancellationToken ct)
    {
        if (await StripView.LoadAsync(work, strip, Number, ct) is not { } view || view.Record.Steps.FirstOrDefault(step => step.Id == Id) is not { } step)
            return false;
        Shown = new View(view, step, await strip.WordsAsync(ct));
        return true;
    }

    public sealed record View(StripView Strip, StepLine Step, IReadOnlyList<string> Words);

    public sealed class SplitInput
    {
        [Display(Name = "How many go")]
        public int SplitCount { get; set; } = 1;

        [Display(Name = "What they are"), StringLength(200)]
        public string What { get; set; } = "";
    }

    public sealed class StrikeInput
    {
        [Display(Name = "Why"), StringLength(500)]
        public string Reason { get; set; } = "";
    }
}
