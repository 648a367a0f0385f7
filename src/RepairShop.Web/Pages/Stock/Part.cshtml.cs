using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Parts;
using RepairShop.Domain.Results;
using RepairShop.Services.Parts;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Stock;

public sealed class PartModel(PartService parts) : PageModel
{
    [BindProperty]
    public PartInput Input { get; set; } = new();

    public PartView Part { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct) => await LoadAsync(id, ct) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken ct)
    {
        var typed = Input;
        if (!await LoadAsync(id, ct))
            return NotFound();
        Input = typed;
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var saved = await parts.ChangeAsync(id, Input.Typed(), ct);
        if (saved.Failure is ChangedMeanwhile)
        {
            ModelState.Remove("Input.Version");
            Input.Version = Part.Typed.Version;
        }

        return await this.Answer(saved, "Part saved.", () => RedirectToPage(new { id }));
    }

    public async Task<IActionResult> OnPostBringInAsync(Guid id, MovementKind kind, decimal? quantity, decimal? unitCost, string? note, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        if (!OnlyErrorsOf("quantity", "unitCost") || kind is not (MovementKind.Received or MovementKind.PutBack))
            return await this.ShowAgain();
        var brought = await parts.BringInAsync(id, kind, quantity ?? 0, unitCost, Short(note), ct);
        return await this.Answer(brought, kind == MovementKind.Received ? "Received." : "Put back.", () => RedirectToPage(new { id }));
    }

    public async Task<IActionResult> OnPostCountAsync(Guid id, decimal? counted, string? reason, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        if (!OnlyErrorsOf("counted"))
            return await this.ShowAgain();
        var corrected = await parts.CorrectCountAsync(id, counted ?? -1, Short(reason), ct);
        return await this.Answer(corrected, "The count is corrected.", _ => RedirectToPage(new { id }));
    }

    public async Task<IActionResult> OnPostRetireAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        ModelState.Clear();
        return await this.Answer(await parts.RetireAsync(id, ct), "Part retired. It stays in the ledger and on past repairs.", () => RedirectToPage(new { id }));
    }

    public async Task<IActionResult> OnPostBringBackAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        ModelState.Clear();
        return await this.Answer(await parts.BringBackAsync(id, ct), "Part is in use again.", () => RedirectToPage(new { id }));
    }

    /// <summary>The small forms beside the main one post their own fields only.</summary>
    private bool OnlyErrorsOf(params string[] fields)
    {
        foreach (var key in ModelState.Keys.Where(key => !fields.Contains(key, StringComparer.OrdinalIgnoreCase)).ToList())
            ModelState.Remove(key);
        return ModelState.IsValid;
    }

    private static string Short(string? text) => (text ?? "").Trim() is { Length: > 500 } @long ? @long[..500] : (text ?? "").Trim();

    private async Task<bool> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await parts.GetAsync(id, ct);
        if (!found.IsDone)
            return false;
        Part = found.Value;
        Input = PartInput.Of(Part.Typed);
        return true;
    }
}
