using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Checks;
using RepairShop.Domain.Results;
using RepairShop.Services.Checks;
using RepairShop.Services.Repairs;
using RepairShop.Web.Forms;
using RepairShop.Web.Pages.Work;

namespace RepairShop.Web.Pages.Checks;

public sealed class IndexModel(WorkService work, CheckService checks) : PageModel
{
    [BindProperty]
    public InputModel Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, string phase, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, ct))
            return NotFound();
        Input.Rows = [.. Shown.Lines.Select(line => new RowInput
        {
            Name = line.Name, Unit = line.Unit, Outcome = line.Outcome, Note = line.Note, Value = line.Value, Was = line.Was,
        })];
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(string number, string phase, CancellationToken ct)
    {
        if (!await LoadAsync(number, phase, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var result = await checks.SaveAsync(Shown.Repair.Id, Shown.Phase, Input.Typed(), ct);
        if (result.Failure is ChangedMeanwhile)
            await StoredNowAsync(number, phase, ct);
        return await this.Answer(result, "Checks saved.", () => RedirectToPage(new { number, phase }));
    }

    /// <summary>What is stored now becomes what the next save is held against: saving again is then a choice.</summary>
    private async Task StoredNowAsync(string number, string phase, CancellationToken ct)
    {
        await LoadAsync(number, phase, ct);
        for (var i = 0; i < Input.Rows.Count; i++)
        {
            ModelState.Remove($"Input.Rows[{i}].Was");
            Input.Rows[i].Was = Shown.Lines.FirstOrDefault(line => line.Name == Input.Rows[i].Name)?.Was ?? CheckService.Mark(null);
        }
    }

    private async Task<bool> LoadAsync(string number, string phase, CancellationToken ct)
    {
        if (Phases.Read(phase) is not { } read || await work.FindAsync(number, ct) is not { } repair)
            return false;
        Shown = new View(repair, read, await checks.FormAsync(repair.Id, read, ct));
        return true;
    }

    public sealed class InputModel
    {
        public List<RowInput> Rows { get; set; } = [];

        [StringLength(120)]
        public string? ExtraName { get; set; }

        public CheckOutcome ExtraOutcome { get; set; }

        [StringLength(500)]
        public string? ExtraNote { get; set; }

        public IReadOnlyList<CheckTyped> Typed()
        {
            var rows = Rows.Select(row => new CheckTyped(row.Name, row.Unit ?? "", row.Outcome, row.Note ?? "", row.Value, row.Was ?? "")).ToList();
            if (!string.IsNullOrWhiteSpace(ExtraName))
                rows.Add(new CheckTyped(ExtraName.Trim(), "", ExtraOutcome, ExtraNote ?? "", null, CheckService.Mark(null)));
            return rows;
        }
    }

    public sealed class RowInput
    {
        [StringLength(120)]
        public string Name { get; set; } = "";

        [StringLength(20)]
        public string? Unit { get; set; }

        public CheckOutcome Outcome { get; set; }

        [StringLength(500)]
        public string? Note { get; set; }

        public double? Value { get; set; }

        [StringLength(700)]
        public string? Was { get; set; }
    }

    public sealed record View(RepairHead Repair, Phase Phase, IReadOnlyList<CheckLine> Lines)
    {
        public CheckSaid? Before(string name) => Lines.FirstOrDefault(line => line.Name == name)?.AsReceived;
    }
}
