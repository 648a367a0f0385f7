using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Worksheets;
using RepairShop.Services.Worksheets;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Worksheets;

public sealed class SpringModel(WorksheetService sheets) : PageModel
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
        Shown = new View(repair, this.IsSent() ? this.WorkOut(() => SpringSheet.Work(Input.Typed())) : null);
        return true;
    }

    public sealed record View(WorksheetRepair Repair, SpringWorked? Worked);

    public sealed class InputModel
    {
        [StringLength(20)]
        public string? Place { get; set; }

        public bool Anticlockwise { get; set; }

        [StringLength(20)]
        public string? AsNew { get; set; } = "2:00";

        [StringLength(20)]
        public string? Serviceable { get; set; } = "3:00";

        [StringLength(20)]
        public string? Tired { get; set; } = "4:00";

        public SpringTyped Typed() => new(Place ?? "", Anticlockwise, AsNew ?? "", Serviceable ?? "", Tired ?? "");
    }
}
