using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Labour;
using RepairShop.Domain.Results;
using RepairShop.Services.Labour;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Labour;

public sealed class CorrectModel(WorkService work, LabourService labour) : PageModel
{
    [BindProperty]
    public IndexModel.InputModel Input { get; set; } = new();

    [BindProperty, StringLength(500)]
    public string? Reason { get; set; }

    public View Shown { get; private set; } = null!;

    public bool AsksWhich { get; private set; }

    public async Task<IActionResult> OnGetAsync(string number, Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(number, id, ct))
            return NotFound();
        var line = Shown.Line;
        Input = new IndexModel.InputModel
        {
            Day = line.Day,
            From = line.From is { } from ? TimeOnly.FromDateTime(from.DateTime) : null,
            To = line.To is { } to ? TimeOnly.FromDateTime(to.DateTime) : null,
            Length = line.From is null ? LengthText.Write(line.Minutes ?? 0) : null,
            Activity = line.Activity,
            Billable = line.Billable,
            Version = line.Version,
        };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string number, Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(number, id, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var kept = await labour.CorrectAsync(id, Input.Typed(), Reason, ct);
        AsksWhich = kept.Failure is TimeHappenedTwice;
        // What is stored now is shown beside it: saving again is then a choice.
        if (kept.Failure is ChangedMeanwhile && await LoadAsync(number, id, ct))
            Input.Version = Shown.Line.Version;
        return await this.Answer(
            kept, "Corrected. The old value stands beside it.", _ => RedirectToPage("/Labour/Index", new { number }));
    }

    public async Task<IActionResult> OnPostRemoveAsync(string number, Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(number, id, ct))
            return NotFound();
        ModelState.Clear();
        return await this.Answer(
            await labour.RemoveAsync(id, Reason, ct), "Taken away. It stays readable with your reason.", () => RedirectToPage("/Labour/Index", new { number }));
    }

    private async Task<bool> LoadAsync(string number, Guid id, CancellationToken ct)
    {
        if (await work.FindAsync(number, ct) is not { } repair)
            return false;
        var hours = await labour.ForRepairAsync(repair.Id, ct);
        if (hours.Lines.FirstOrDefault(line => line.Id == id && line is { Removed: false, IsRunning: false }) is not { } found)
            return false;
        Shown = new View(repair, found, hours.Activities);
        return true;
    }

    public sealed record View(RepairHead Repair, LabourLine Line, IReadOnlyList<string> Activities);
}
