using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Worksheets;
using RepairShop.Services.Worksheets;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class CouplingModel(WorksheetService sheets) : PageModel
{
    private const string UsualSpeeds = "1 1/2 1/4 1/8 1/15 1/30 1/60 1/125 1/250 1/500";

    [BindProperty(SupportsGet = true)]
    public InputModel Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct) =>
        await LoadAsync(number, ct) ? Page() : NotFound();

    public async Task<IActionResult> OnPostKeepAsync(string number, Guid once, CancellationToken ct) =>
        await LoadAsync(number, ct) ? await this.KeepAsync(sheets, Shown.Repair, Shown.Worked?.Finding, once, ct) : NotFound();

    private async Task<bool> LoadAsync(string number, CancellationToken ct)
    {
        if (await sheets.OpenAsync(number, ct) is not { } repair)
            return false;
        if (repair.Dial.Count > 0)
            Input.Speeds ??= string.Join(' ', repair.Dial);
        Input.Speeds ??= UsualSpeeds;
        Shown = new View(repair, this.IsSent() ? this.WorkOut(() => CouplingSheet.Work(Input.Typed())) : null);
        return true;
    }

    public sealed record View(WorksheetRepair Repair, CouplingWorked? Worked);

    public sealed class InputModel
    {
        public double? Value { get; set; }

        [StringLength(200)]
        public string? Speeds { get; set; }

        [StringLength(200)]
        public string? Apertures { get; set; } = CouplingSheet.UsualApertures;

        public double? LimitStops { get; set; } = 0.25;

        public List<LineInput> Lines { get; set; } = [];

        public CouplingTyped Typed() => new(
            Value, Speeds ?? "", Apertures ?? "", LimitStops, [.. Lines.Select(line => new CouplingLine(line.Speed ?? "", line.Holds, line.Read))]);
    }

    public sealed class LineInput
    {
        [StringLength(20)]
        public string? Speed { get; set; }

        public bool Holds { get; set; }

        public double? Read { get; set; }
    }
}
