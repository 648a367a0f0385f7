using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Parts;
using RepairShop.Services.Parts;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Parts;

public sealed class IndexModel(WorkService work, PartUseService uses) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        Input = new InputModel { Once = Guid.CreateVersion7() };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string number, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        return await this.Answer(
            await uses.UseAsync(Shown.Repair.Id, Input.Typed(), Input.Once, ct), "Part added.", _ => RedirectToPage(new { number }));
    }

    public async Task<IActionResult> OnPostTakeOffAsync(string number, Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(number, ct))
            return NotFound();
        ModelState.Clear();
        var fromStock = Shown.Parts.Lines.Any(line => line.Id == id && line.PartId is not null);
        return await this.Answer(
            await uses.TakeOffAsync(Shown.Repair.Id, id, ct), fromStock ? "Taken off, and put back into stock." : "Taken off.",
            () => RedirectToPage(new { number }));
    }

    private async Task<bool> LoadAsync(string number, CancellationToken ct)
    {
        if (await work.FindAsync(number, ct) is not { } repair)
            return false;
        Shown = new View(repair, await uses.ForRepairAsync(repair.Id, ct));
        return true;
    }

    public sealed class InputModel
    {
        [StringLength(300)]
        public string? Part { get; set; }

        [StringLength(500)]
        public string? Text { get; set; }

        public decimal Quantity { get; set; } = 1;

        [StringLength(20)]
        public string? Unit { get; set; }

        public Provenance Provenance { get; set; }

        public decimal? UnitCost { get; set; }

        public decimal? UnitPrice { get; set; }

        public Guid? FindingId { get; set; }

        public Guid Once { get; set; }

        public PartUseTyped Typed() => new(Part ?? "", Text ?? "", Quantity, Unit ?? "", Provenance, UnitCost, UnitPrice, FindingId);
    }

    public sealed record View(RepairHead Repair, PartsView Parts);
}
