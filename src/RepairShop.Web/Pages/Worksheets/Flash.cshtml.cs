using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Worksheets;
using RepairShop.Measurement.Gauges;
using RepairShop.Services.Worksheets;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class FlashModel(WorksheetService sheets) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public InputModel Input { get; set; } = new();

    public View Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct)
    {
        if (await sheets.OpenAsync(number, ct) is not { } repair)
            return NotFound();
        Shown = new View(repair, this.IsSent() ? this.WorkOut(() => FlashSheet.Work(Input.Typed())) : null);
        return Page();
    }

    public sealed record View(WorksheetRepair Repair, FlashCapacitor? Worked);

    public sealed class InputModel
    {
        public double? Microfarads { get; set; }

        public double? Volts { get; set; } = 330;

        public double? Ohms { get; set; } = 10_000;

        public double? SafeVolts { get; set; } = FlashCapacitor.DefaultSafeVolts;

        public FlashTyped Typed() => new(Microfarads, Volts, Ohms, SafeVolts);
    }
}
