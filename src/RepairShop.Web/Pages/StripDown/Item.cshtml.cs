using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Findings;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>Some equal pieces of one step: how they went through the wash, and what became of them.</summary>
public sealed class ItemModel(
    WorkService work, StripDownService strip, StripItemService items, CleaningListService cleaning, FindingService findings) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string Number { get; set; } = "";

    [BindProperty(SupportsGet = true)]
    public Guid Id { get; set; }

    [BindProperty]
    public FateInput Fate { get; set; } = new();

    [BindProperty]
    public WashInput Wash { get; set; } = new();

    public View Shown { get; private set; } = null!;

    public bool OpensReplacement => Fate.Fate == ItemFate.Replaced;

    private Guid RepairId => Shown.Strip.Repair.Id;

    public async Task<IActionResult> OnGetAsync(CancellationToken ct)
    {
        if (!await LoadAsync(ct))
            return NotFound();
        ModelState.Clear();
        Fate.Count = Shown.Lot.Count;
        Wash = WashInput.Of(Shown.Lot.Wash);
        return Page();
    }

    public Task<IActionResult> OnPostFateAsync(CancellationToken ct) => DoAsync(nameof(Fate), async () =>
    {
        Wash = WashInput.Of(Shown.Lot.Wash);
        var done = await items.AccountAsync(RepairId, Id, Fate.Count ?? Shown.Lot.Count, Fate.Typed(), ct);
        return await AnswerAsync(done, nameof(Fate), $"{Shown.Lot.Name}: {StripWords.Of(Fate.Fate)}.");
    }, ct);

    public Task<IActionResult> OnPostTakeBackAsync(CancellationToken ct) => DoAsync("", async () =>
        await AnswerAsync(await items.TakeBackAsync(RepairId, Id, ct), "", $"{Shown.Lot.Name}: still out."), ct);

    public Task<IActionResult> OnPostWashAsync(CancellationToken ct) => DoAsync(nameof(Wash), async () =>
    {
        Fate.Count = Shown.Lot.Count;
        return await AnswerAsync(await items.WashAsync(RepairId, Id, Wash.Typed(), ct), nameof(Wash), "The wash is saved.");
    }, ct);

    public static IEnumerable<SelectListItem> Fates() =>
        Enum.GetValues<ItemFate>().Where(fate => fate != ItemFate.StillOut).Select(fate => new SelectListItem(StripWords.Of(fate), $"{fate}"));

    public static IEnumerable<SelectListItem> Provenances() =>
        Enum.GetValues<Provenance>().Select(from => new SelectListItem(ProvenanceWords.Of(from), $"{from}"));

    public static IEnumerable<SelectListItem> Parts(IEnumerable<FittedChoice> fitted) => fitted
        .Select(part => new SelectListItem($"{part.Text}, {ProvenanceWords.Of(part.Provenance)}", $"{part.Id}")).Prepend(new SelectListItem("none of those fitted", ""));

    public static IEnumerable<SelectListItem> Findings(IEnumerable<FindingLine> findings) => findings
        .Select(finding => new SelectListItem(finding.Component, $"{finding.Id}")).Prepend(new SelectListItem("none", ""));

    /// <summary>The shop's list, and what was written when it was still on it.</summary>
    public static IEnumerable<SelectListItem> WaysOf(IEnumerable<CleaningLine> ways, string now)
    {
        var names = ways.Where(way => !way.Retired).Select(way => way.Name).ToList();
        if (now.Length > 0 && !names.Contains(now))
            names.Add(now);
        return names.Select(name => new SelectListItem(name, name)).Prepend(new SelectListItem("not cleaned", ""));
    }

    public static IEnumerable<SelectListItem> Lubrications() =>
    [
        new("not said", $"{Lubrication.NotSaid}"), new("left dry", $"{Lubrication.LeftDry}"), new("lubricated", $"{Lubrication.Lubricated}"),
    ];

    private async Task<IActionResult> AnswerAsync(Result done, string form, string notice)
    {
        if (done.Failure is Invalid invalid)
        {
            ModelState.AddModelError($"{form}.{invalid.Field}", invalid.Message);
            return await this.ShowAgain();
        }

        return await this.Answer(done, notice, () => RedirectToPage("Step", new { Number, id = Shown.Step.Id }));
    }

    private async Task<IActionResult> DoAsync(string form, Func<Task<IActionResult>> work, CancellationToken ct)
    {
        if (!await LoadAsync(ct))
            return NotFound();
        this.OnlyCheck(form);
        return ModelState.IsValid ? await work() : await this.ShowAgain();
    }

    private async Task<bool> LoadAsync(CancellationToken ct)
    {
        if (await StripView.LoadAsync(work, strip, Number, ct) is not { } view || view.Record.Steps.FirstOrDefault(one => one.Lots.Any(lot => lot.Id == Id)) is not { } step)
            return false;
        Shown = new View(
            view, step, step.Lots.Single(lot => lot.Id == Id), await strip.FittedAsync(view.Repair.Id, ct),
            await findings.ForRepairAsync(view.Repair.Id, ct), await cleaning.ListAsync(ct), await strip.LubricantsAsync(ct));
        return true;
    }

    public sealed record View(
        StripView Strip, StepLine Step, LotLine Lot, IReadOnlyList<FittedChoice> Fitted, IReadOnlyList<FindingLine> Findings,
        IReadOnlyList<CleaningLine> Ways, IReadOnlyList<string> Lubricants);
}
