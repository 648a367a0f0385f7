using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Worksheets;
using RepairShop.Measurement.Gauges;
using RepairShop.Measurement.Tools;
using RepairShop.Services.Worksheets;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class FocusModel(WorksheetService sheets) : PageModel
{
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
        Shown = new View(repair, this.IsSent() ? this.WorkOut(() => FocusSheet.Work(Input.Typed())) : null);
        return true;
    }

    public sealed record View(WorksheetRepair Repair, FocusWorked? Worked);

    public sealed class InputModel
    {
        public LengthUnit Unit { get; set; }

        public double? Measured { get; set; }

        public double? Nominal { get; set; }

        public double? Shims { get; set; }

        public double? FocalLength { get; set; } = 50;

        public double? FNumber { get; set; } = 2;

        public double? Circle { get; set; } = Focus.CommonCircle;

        public double? SetMetres { get; set; }

        public FocusTyped Typed() => new(Unit, Measured, Nominal, Shims, FocalLength, FNumber, Circle, SetMetres);
    }
}
