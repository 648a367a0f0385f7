using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Domain.Results;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Tools;

/// <summary>What a form of the tool room carries beside what is typed.</summary>
public abstract class ToolRoomInput
{
    public uint Version { get; set; }
}

/// <summary>One thing of the tool room on its own page: changed, retired, brought back into use.</summary>
/// <param name="what">What it is called, which is its page's name too.</param>
/// <param name="list">The page that lists its like.</param>
public abstract class ToolRoomPage<TInput>(string what, string list) : PageModel
    where TInput : ToolRoomInput, new()
{
    [BindProperty]
    public TInput Input { get; set; } = new();

    public async Task<IActionResult> OnGetAsync(Guid id, CancellationToken ct)
    {
        if (await LoadAsync(id, ct) is not { } stored)
            return NotFound();
        Input = stored;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(Guid id, CancellationToken ct)
    {
        if (await LoadAsync(id, ct) is not { } stored)
            return NotFound();
        if (!ModelState.IsValid)
            return await this.ShowAgain();
        var saved = await ChangeAsync(id, ct);
        await this.Renew(saved, "Input.Version", () => Task.FromResult(Input.Version = stored.Version));
        return await this.Answer(saved, $"{what} saved.", () => RedirectToPage(new { id }));
    }

    public async Task<IActionResult> OnPostRetireAsync(Guid id, CancellationToken ct)
    {
        if (await LoadAsync(id, ct) is null)
            return NotFound();
        ModelState.Clear();
        var retired = await RetireAsync(id, ct);
        if (retired.IsDone)
            this.Tell($"{what} retired.", Url.Page($"/Tools/{what}", "BringBack", new { id }));
        return await this.Answer(retired, null, () => RedirectToPage($"/Tools/{list}"));
    }

    public async Task<IActionResult> OnPostBringBackAsync(Guid id, CancellationToken ct)
    {
        if (await LoadAsync(id, ct) is null)
            return NotFound();
        ModelState.Clear();
        return await this.Answer(await BringBackAsync(id, ct), $"{what} is in use again.", () => RedirectToPage(new { id }));
    }

    /// <summary>Reads what the page shows; what is stored as a form, or null where there is no such thing.</summary>
    protected abstract Task<TInput?> LoadAsync(Guid id, CancellationToken ct);

    protected abstract Task<Result> ChangeAsync(Guid id, CancellationToken ct);

    protected abstract Task<Result> RetireAsync(Guid id, CancellationToken ct);

    protected abstract Task<Result> BringBackAsync(Guid id, CancellationToken ct);
}
