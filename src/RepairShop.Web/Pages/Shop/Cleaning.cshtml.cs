using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Domain.StripDown;
using RepairShop.Services.StripDown;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

public sealed class CleaningModel(CleaningListService cleaning) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public IReadOnlyList<CleaningLine> List { get; private set; } = [];

    public static IReadOnlyList<SolventCaution> Cautions { get; } =
        [SolventCaution.Flammable, SolventCaution.HarmfulVapour, SolventCaution.AttacksFinish];

    public async Task OnGetAsync(CancellationToken ct)
    {
        ModelState.Clear();
        List = await cleaning.ListAsync(ct);
    }

    public async Task<IActionResult> OnPostAddAsync(CancellationToken ct)
    {
        if (!ModelState.IsValid)
            return await this.ShowAgain(() => LoadAsync(ct));
        var added = await cleaning.AddAsync(Input.Name, Together(Input.Cautions), ct);
        return await this.Answer(added, $"“{Input.Name}” is on the list.", () => RedirectToPage(), () => LoadAsync(ct));
    }

    public async Task<IActionResult> OnPostCautionsAsync(Guid id, List<SolventCaution> cautions, CancellationToken ct) =>
        await AnswerAsync(await cleaning.ChangeCautionsAsync(id, Together(cautions), ct), "The cautions are saved.", ct);

    public async Task<IActionResult> OnPostRetireAsync(Guid id, CancellationToken ct)
    {
        var retired = await cleaning.RetireAsync(id, ct);
        if (retired.IsDone)
            this.Tell("It is off the list; parts keep what was written.", Url.Page("Cleaning", "BringBack", new { id }));
        return await AnswerAsync(retired, null, ct);
    }

    public async Task<IActionResult> OnPostBringBackAsync(Guid id, CancellationToken ct) =>
        await AnswerAsync(await cleaning.BringBackAsync(id, ct), "It is on the list again.", ct);

    private Task<IActionResult> AnswerAsync(Result result, string? notice, CancellationToken ct)
    {
        ModelState.Clear();
        return this.Answer(result, notice, () => RedirectToPage(), () => LoadAsync(ct));
    }

    private async Task LoadAsync(CancellationToken ct) => List = await cleaning.ListAsync(ct);

    private static SolventCaution Together(IEnumerable<SolventCaution> cautions) =>
        cautions.Aggregate(SolventCaution.None, (all, one) => all | one);

    public sealed class InputModel
    {
        [Display(Name = "Way of cleaning"), StringLength(120)]
        public string Name { get; set; } = "";

        public List<SolventCaution> Cautions { get; set; } = [];
    }
}
