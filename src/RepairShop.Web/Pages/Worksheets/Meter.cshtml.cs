using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Worksheets;
using RepairShop.Services.Worksheets;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class MeterModel(WorksheetService sheets) : PageModel
{
    private const int Rows = 6;

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
        if (!this.IsSent())
            Shown = new View(repair, null);
        else
            Shown = new View(repair, this.WorkOut(() => MeterSheet.Work(Input.Typed())));
        while (Input.Lines.Count < Rows || Input.Lines[^1] is { Light: not null, Reading.Length: > 0 })
            Input.Lines.Add(new LineInput());
        return true;
    }

    public sealed record View(WorksheetRepair Repair, MeterWorked? Worked);

    public sealed class InputModel
    {
        public MeterLight Light { get; set; }

        public double? FilmSpeed { get; set; } = 100;

        public double? Constant { get; set; }

        public double? LimitStops { get; set; } = 0.5;

        public List<LineInput> Lines { get; set; } = [];

        public MeterTyped Typed() =>
            new(Light, FilmSpeed, Constant, LimitStops, [.. Lines.Select(line => new MeterLine(line.Light, line.Reading ?? ""))]);
    }

    public sealed class LineInput
    {
        public double? Light { get; set; }

        [StringLength(40)]
        public string? Reading { get; set; }
    }
}
