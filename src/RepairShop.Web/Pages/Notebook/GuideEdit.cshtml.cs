using System.ComponentModel.DataAnnotations;
using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Notebook;
using RepairShop.Services.Notebook;
using RepairShop.Services.StripDown;
using RepairShop.Web.Forms;
using RepairShop.Web.Pages.StripDown;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>The steps of a guide as one form. Inserting, moving and taking out show the form again with everything typed; only
/// saving saves.</summary>
[RequestFormLimits(ValueCountLimit = 30_000)]
public sealed class GuideEditModel(NotebookService pages, GuideService guides, StripDownService strip) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public Guid Id { get; private set; }

    public string Name { get; private set; } = "";

    public int Newest { get; private set; }

    /// <summary>The step that is shown open; −1 for none.</summary>
    public int Open { get; private set; } = -1;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct)
    {
        if (await LoadAsync(id, ct) is not { } page)
            return NotFound();
        Input.BasedOn = Newest;
        Input.Steps = [.. (page.Guide?.Steps ?? [new GuideStep()]).Select(step => StepInput.Of(step.ToFacts()))];
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, string? @do, CancellationToken ct)
    {
        if (await LoadAsync(id, ct) is null)
            return NotFound();
        if (@do is { } deed && Done(deed))
        {
            ModelState.Clear();
            return Page();
        }

        if (!ModelState.IsValid)
        {
            NameTheSteps();
            return await this.ShowAgain();
        }

        return await SaveAsync(id, ct);
    }

    private async Task<IActionResult> SaveAsync(Guid id, CancellationToken ct)
    {
        var saved = await guides.SaveGuideAsync(
            id, [.. Input.Steps.Select(step => GuideStep.Of(step.Typed()))], new GuideOrigin(Input.Note ?? "", BasedOn: Input.BasedOn), ct);
        if (saved.Failure is GuideSavedMeanwhile)
        {
            ModelState.Remove("Input.BasedOn");
            Input.BasedOn = Newest; // it was said: saving again is then a choice
        }

        return await this.Answer(saved, "The guide is saved.", _ => RedirectToPage("Guide", new { id }));
    }

    /// <summary>Does what a button beside a step says; false for anything else.</summary>
    private bool Done(string deed)
    {
        if (deed.Split(':') is not [var what, var text] || !int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var at) || at > Input.Steps.Count)
            return false;
        var to = what == "up" ? at - 1 : at + 1;
        switch (what)
        {
            case "insert" when Input.Steps.Count < GuideRules.MostSteps:
                Input.Steps.Insert(at, new StepInput());
                Open = at;
                return true;
            case "remove" when at < Input.Steps.Count:
                Input.Steps.RemoveAt(at);
                return true;
            case "up" or "down" when at < Input.Steps.Count && to >= 0 && to < Input.Steps.Count:
                (Input.Steps[at], Input.Steps[to]) = (Input.Steps[to], Input.Steps[at]);
                Open = to;
                return true;
            default:
                return false;
        }
    }

    /// <summary>Of forty steps with the same fields, a sentence must say which it means.</summary>
    private void NameTheSteps()
    {
        for (var i = 0; i < Input.Steps.Count; i++)
        {
            foreach (var (_, entry) in ModelState.Where(entry => entry.Key.StartsWith($"Input.Steps[{i}].", StringComparison.Ordinal)))
            {
                var sentences = entry!.Errors.Select(error => $"Step {i + 1}: {error.ErrorMessage}").ToList();
                entry.Errors.Clear();
                sentences.ForEach(entry.Errors.Add);
            }
        }
    }

    private async Task<ModelPageView?> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await pages.GetAsync(id, ct);
        if (!found.IsDone)
            return null;
        (Id, Name, Newest) = (id, found.Value.Name, found.Value.Guide?.Newest ?? 0);
        ViewData["Step"] = new StepFieldsView([], await strip.WordsAsync(ct));
        return found.Value;
    }

    public sealed class InputModel
    {
        [StringLength(NotebookRules.TextLength)]
        public string? Note { get; set; }

        /// <summary>The version the form began with; 0 where there was none.</summary>
        public int BasedOn { get; set; }

        public List<StepInput> Steps { get; set; } = [];
    }
}
