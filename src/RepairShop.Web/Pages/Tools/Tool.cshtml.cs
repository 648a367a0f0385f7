using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Tools;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Tools;

public sealed class ToolModel(ToolService tools) : PageModel
{
    [BindProperty]
    public ToolInput Input { get; set; } = new();

    public ToolView Tool { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        Input = ToolInput.Of(Tool.Typed);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var saved = await tools.ChangeAsync(id, Input.Typed(), ct);
        await this.Renew(saved, "Input.Version", () => Task.FromResult(Input.Version = Tool.Typed.Version));
        return await this.Answer(saved, "Tool saved.", () => RedirectToPage(new { id }));
    }

    public async Task<IActionResult> OnPostRetireAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        ModelState.Clear();
        var retired = await tools.RetireAsync(id, ct);
        if (retired.IsDone)
            this.Tell("Tool retired.", Url.Page("/Tools/Tool", "BringBack", new { id }));
        return await this.Answer(retired, null, () => RedirectToPage("/Tools/Index"));
    }

    public async Task<IActionResult> OnPostBringBackAsync(Guid id, CancellationToken ct)
    {
        if (!await LoadAsync(id, ct))
            return NotFound();
        ModelState.Clear();
        return await this.Answer(await tools.BringBackAsync(id, ct), "Tool is in use again.", () => RedirectToPage(new { id }));
    }

    private async Task<bool> LoadAsync(Guid id, CancellationToken ct)
    {
        var found = await tools.GetAsync(id, ct);
        if (found.IsDone)
            Tool = found.Value;
        return found.IsDone;
    }
}
