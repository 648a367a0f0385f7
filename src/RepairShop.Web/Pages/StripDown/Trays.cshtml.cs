using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Repairs;
using RepairShop.Services.StripDown;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.StripDown;

/// <summary>What lies where, to look at and to print; trays made, changed and taken away.</summary>
public sealed class TraysModel(WorkService work, StripDownService strip, TrayService trays) : PageModel
{
    [BindProperty]
    public TrayInput Tray { get; set; } = new();

    public StripView Shown { get; private set; } = null!;

    public Guid? Opened { get; private set; }

    public async Task<IActionResult> OnGetAsync(string number, CancellationToken ct)
    {
        ModelState.Clear();
        if (!await LoadAsync(number, ct))
            return NotFound();
        Tray.Name = (Shown.Record.Trays.Count + 1).ToString(CultureInfo.CurrentCulture);
        return Page();
    }

    public async Task<IActionResult> OnPostAddAsync(string number, CancellationToken ct)
    {
        this.OnlyCheck(nameof(Tray));
        if (!await LoadAsync(number, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var added = await trays.AddAsync(Shown.Repair.Id, Tray.Typed(), Tray.Once, ct);
        if (added.Failure is Domain.Results.Invalid invalid)
            ModelState.AddModelError($"Tray.{invalid.Field}", invalid.Message);
        return ModelState.IsValid ? await this.Answer(added, $"Tray {Tray.Name} is there.", _ => RedirectToPage(new { number })) : await this.ShowAgain();
    }

    public async Task<IActionResult> OnPostChangeAsync(string number, Guid id, string? name, int? rows, int? columns, uint version, CancellationToken ct)
    {
        ModelState.Clear();
        if (!await LoadAsync(number, ct))
            return NotFound();
        Opened = id;
        var changed = await trays.ChangeAsync(Shown.Repair.Id, id, new TrayTyped(name ?? "", rows ?? 0, columns ?? 0, version), ct);
        return await this.Answer(changed, $"Tray {name} is changed.", () => RedirectToPage(new { number }), () => LoadAsync(number, ct));
    }

    public async Task<IActionResult> OnPostRemoveAsync(string number, Guid id, CancellationToken ct)
    {
        ModelState.Clear();
        if (!await LoadAsync(number, ct))
            return NotFound();
        return await this.Answer(await trays.RemoveAsync(Shown.Repair.Id, id, ct), "The tray is taken away.", () => RedirectToPage(new { number }));
    }

    private async Task<bool> LoadAsync(string number, CancellationToken ct)
    {
        if (await StripView.LoadAsync(work, strip, number, ct) is not { } view)
            return false;
        Shown = view;
        return true;
    }
}
