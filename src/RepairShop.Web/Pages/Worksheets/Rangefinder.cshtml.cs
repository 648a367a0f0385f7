using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Worksheets;
using RepairShop.Measurement.Gauges;
using RepairShop.Services.Worksheets;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class RangefinderModel(WorksheetService sheets) : PageModel
{
    private const int Rows = 4;

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
        Shown = new View(repair, this.IsSent() ? this.WorkOut(() => RangefinderSheet.Work(Input.Typed())) : null);
        while (Input.Lines.Count < Rows || Input.Lines[^1] is { Target: not null, Shown: not null })
            Input.Lines.Add(new LineInput());
        return true;
    }

    public sealed record View(WorksheetRepair Repair, RangefinderWorked? Worked);

    public sealed class InputModel
    {
        public DistanceUnit Unit { get; set; }

        public double? FocalLength { get; set; } = 50;

        public double? FNumber { get; set; } = 2;

        public double? Circle { get; set; } = Focus.CommonCircle;

        public double? BaseLength { get; set; }

        public double? Magnification { get; set; } = 1;

        public List<LineInput> Lines { get; set; } = [];

        public RangefinderTyped Typed() => new(
            Unit, FocalLength, FNumber, Circle, BaseLength, Magnification, [.. Lines.Select(line => new RangefinderLine(line.Target, line.Shown))]);
    }

    public sealed class LineInput
    {
        [ModelBinder<DistanceBinder>]
        public double? Target { get; set; }

        [ModelBinder<DistanceBinder>]
        public double? Shown { get; set; }
    }
}
