using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using RepairShop.Services.Reminders;
using RepairShop.Web.Forms;

namespace RepairShop.Web.Pages.Shop;

/// <summary>The steps of reminders, and whether they ask for fees.</summary>
public sealed class RemindersModel(ReminderStepService steps) : PageModel
{
    public ReminderPlan Plan { get; private set; } = null!;

    public Task OnGetAsync(CancellationToken ct) => LoadAsync(ct);

    public async Task<IActionResult> OnPostAddAsync(CancellationToken ct) => await this.Answer(
        await steps.AddAsync(ct), "The step is added: put it into your words.", number => RedirectToPage("ReminderStep", new { number }), () => LoadAsync(ct));

    public async Task<IActionResult> OnPostRemoveAsync(CancellationToken ct) => await this.Answer(
        await steps.RemoveLastAsync(ct), "The last step is removed; what was sent stays.", () => RedirectToPage(), () => LoadAsync(ct));

    public async Task<IActionResult> OnPostFeesAsync(bool asks, uint version, CancellationToken ct) => await this.Answer(
        await steps.AskFeesAsync(asks, version, ct), asks ? "Reminders ask for the fees of their steps from now on." : "Reminders ask for no fees any more.",
        () => RedirectToPage(), () => LoadAsync(ct));

    private async Task LoadAsync(CancellationToken ct) => Plan = await steps.PlanAsync(ct);
}
