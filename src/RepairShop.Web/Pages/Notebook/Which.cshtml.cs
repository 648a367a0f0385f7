using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Notebook;
using RepairShop.Services.Notebook;

namespace RepairShop.Web.Pages.Notebook;

/// <summary>A few questions name the variant on the bench. The answers stand in the address, so that going back takes one back.</summary>
public sealed class WhichModel(NotebookService pages, VariantService known) : PageModel
{
    private const string Prefix = "said.";
    private const int MostAnswers = 40;

    public Guid Id { get; private set; }

    public string Name { get; private set; } = "";

    public IReadOnlyList<VariantFit> Ranked { get; private set; } = [];

    public IReadOnlyList<TraitQuestion> Questions { get; private set; } = [];

    public IReadOnlyList<(string Trait, IReadOnlyList<string> Values, string Said)> Answered { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct)
    {
        var found = await pages.GetAsync(id, ct);
        if (!found.IsDone)
            return NotFound();
        (Id, Name) = (id, found.Value.Name);
        var variants = await known.TraitsAsync(id, ct);
        var said = Request.Query.Where(pair => pair.Key.StartsWith(Prefix, StringComparison.Ordinal) && pair.Value.ToString().Length > 0)
            .Take(MostAnswers).Select(pair => new Trait(pair.Key[Prefix.Length..], pair.Value[^1]!)).ToList();
        var all = VariantFinder.NextQuestions(variants, []);
        said.RemoveAll(answer => !all.Any(question => Same(question.Trait, answer.Name)));
        Ranked = VariantFinder.Rank(variants, said);
        Questions = VariantFinder.NextQuestions(variants, said);
        Answered = [.. said.Select(answer => (answer.Name, all.First(question => Same(question.Trait, answer.Name)).Values, answer.Value))];
        return Page();
    }

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
