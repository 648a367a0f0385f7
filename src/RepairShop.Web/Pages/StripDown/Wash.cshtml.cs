using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using RepairShop.Domain.StripDown;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>One bath for many parts: tick them, say once what was done.</summary>
public sealed class WashModel(WorkService work, StripDownService strip, StripItemService items, CleaningListService cleaning) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    [BindProperty]
    public List<Guid> Picked { get; set; } = [];

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct)
    {
        ModelState.Clear();
        return await LoadAsync(number, ct) ? Page() : NotFound();
    }

    public async Task<IActionResult> OnPostAsync(string number, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        if (Picked.Count == 0)
            ModelState.AddModelError("Picked", "Nothing is ticked: tick what went into this bath.");
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var washed = await items.WashManyAsync(Shown.Strip.Repair.Id, Picked, Input.Typed(), ct);
        return await this.Answer(washed, washed.Value == 1 ? "Written down for one part." : $"Written down for {washed.Value} entries.", _ => RedirectToPage(new { number }));
    }

    public static IEnumerable<SelectListItem> Ways(IEnumerable<CleaningLine> ways) => ways.Where(way => !way.Retired)
        .Select(way => new SelectListItem(way.Name, way.Name)).Prepend(new SelectListItem("as it was", ""));

    public static IEnumerable<SelectListItem> Lubrications() =>
        [new("as it was", ""), new("left dry", $"{Lubrication.LeftDry}"), new("lubricated", $"{Lubrication.Lubricated}")];

    private async Task<bool> LoadAsync(string number, CancellationToken ct)
    {
        if (await StripView.LoadAsync(work, strip, number, ct) is not { } view)
            return false;
        Shown = new View(view, await cleaning.ListAsync(ct), await strip.LubricantsAsync(ct));
        return true;
    }

    public sealed record View(StripView Strip, IReadOnlyList<CleaningLine> Ways, IReadOnlyList<string> Lubricants);

    public sealed class InputModel
    {
        [Display(Name = "Cleaned how"), StringLength(120)]
        public string? CleanedHow { get; set; }

        public bool Inspected { get; set; }

        public Lubrication? Lubrication { get; set; }

        [Display(Name = "With what"), StringLength(120)]
        public string? Lubricant { get; set; }

        [Display(Name = "Where"), StringLength(200)]
        public string? LubricatedWhere { get; set; }

        internal BathFacts Typed() => new(
            string.IsNullOrEmpty(CleanedHow) ? null : CleanedHow, Inspected ? true : null, Lubrication, Lubricant ?? "", LubricatedWhere ?? "");
    }
}
